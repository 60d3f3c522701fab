package main

import (
	"bytes"
	"fmt"
	"net"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// What cannot be shown is said before a page is opened, and in plain words.
func TestPreviewOfWhatIsNotThere(t *testing.T) {
	at, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer at.Close()
	port := fmt.Sprint(at.Addr().(*net.TCPAddr).Port)
	dir := t.TempDir()
	preview := func(name string) string {
		var out, errOut bytes.Buffer
		require.NotEqual(t, exitClean, run(t.Context(), []string{"preview", filepath.Join(dir, name), "--port", port}, nil, &out, &errOut))
		require.Empty(t, out.String())
		return errOut.String()
	}
	put(t, filepath.Join(dir, "notes.txt"), "milk", 0o644)
	require.Contains(t, preview("notes.txt"), "does not end in .tamis")
	said := preview("none")
	require.Contains(t, said, "there is no file or folder")
	require.Contains(t, said, "port "+port+" of this machine cannot be had")
	require.NotContains(t, said, "listen tcp")
	require.NotContains(t, said, "bind")
}
