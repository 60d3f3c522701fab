package main

import (
	"errors"

	"github.com/spf13/cobra"

	"tamis/compiler/desk"
)

func (a *app) lsp() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "lsp",
		Short: "Answer an editor, over standard input and output",
		Long: `Lsp is for editors, which start it themselves: a language server of the
Language Server Protocol, version 3.17, over standard input and output. As you
type it shows what does not add up, what a sentence takes, what an amount comes
to in your menus and when the plan has a step; it completes names and words,
goes to where a base is made, renames a thing wherever it is named, carries out
fixes, and lays the text out.

lang/editors.md says how an editor is told of it. It reads the folders of the
texts that are open and the workspace, writes no file and opens no connection.

The exit code is 0 when the editor took its leave, and 1 when it went away.`,
		Example: `  tamis lsp`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 0 {
				return misused{errors.New("lsp takes no names: the editor says what is open")}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, _ []string) error {
			if !desk.Serve(cmd.Context(), a.in, a.bare, desk.Options{Version: version()}) {
				a.code = exitFaults
			}
			return cmd.Context().Err()
		},
	}
	cmd.Flags().Bool("stdio", true, "speak over standard input and output, which is the only way there is")
	return cmd
}
