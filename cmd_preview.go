package main

import (
	"errors"
	"fmt"
	"io/fs"
	"net"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"tamis/compiler/load"
	"tamis/compiler/preview"
	"tamis/lang/source"
)

func (a *app) preview() *cobra.Command {
	var size sizes
	var names []string
	var port int
	cmd := &cobra.Command{
		Use:   "preview PATH",
		Short: "Show the sheets in a browser while you write",
		Long: `Preview shows the sheets of a folder, or of one file, on a page of this machine, and
makes them anew whenever you save: the page stays where you read. Beside the sheets
stands what was found in the text, and how the sentence is read that you changed last,
or that you choose in the text beside. While the text has errors, the sheets of the
last text without them stay.

Nobody else can reach the page, nor can a tablet in the kitchen: for that, build the
sheets and take the HTML file there. Ctrl-C ends it. It writes no file.`,
		Example: `  tamis preview examples/harvest-lunch
  tamis preview supper.tamis --port 8080
  tamis preview . --sheets office --covers 30`,
		Args: onePath,
		RunE: func(cmd *cobra.Command, args []string) error {
			opt, err := size.options()
			if err != nil {
				return err
			}
			if opt.Sheets, opt.Cook, err = kinds(names); err != nil {
				return err
			}
			switch info, err := os.Stat(args[0]); {
			case errors.Is(err, fs.ErrNotExist):
				fmt.Fprintf(a.errOut, "there is no file or folder %q yet: the page waits for it\n", args[0])
			case err == nil && !info.IsDir() && !strings.HasSuffix(args[0], load.Ending):
				return fmt.Errorf("%q does not end in %s: name a folder, or a file with that ending", args[0], load.Ending)
			}
			at, err := net.Listen("tcp", fmt.Sprintf("127.0.0.1:%d", port))
			if err != nil {
				return fmt.Errorf("port %d of this machine cannot be had: %w; leave --port out, and a free one is taken", port, portReason(err))
			}
			fmt.Fprintf(a.out, "http://%s/ shows %s until you press Ctrl-C\n", at.Addr(), args[0])
			return preview.New(args[0], preview.Options{Compile: opt}).Serve(cmd.Context(), at)
		},
	}
	cmd.Flags().Var(whole{to: &port, min: 1, max: 65535}, "port", "`NUMBER` of the port of this machine; a free one if not said")
	cmd.Flags().StringSliceVar(&names, "sheets", nil, "`SHEETS` to show, or a pack of them: "+strings.Join(kindNames(), ", ")+"; the kitchen's if not said")
	size.flags(cmd)
	return cmd
}

// portReason is why a port cannot be had, without the words of the network round it.
func portReason(err error) error {
	if call := (*os.SyscallError)(nil); errors.As(err, &call) {
		return source.Reason(call.Err)
	}
	return source.Reason(err)
}
