package source

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"syscall"
)

// Reason is what the system says of a file in a cook's words, without the name
// of the call and of the file, which the message around it has. It stays what it
// was for errors.Is.
func Reason(err error) error {
	for _, r := range append(systemReasons, []said{
		{fs.ErrNotExist, "it is not there"},
		{fs.ErrPermission, "you may not"},
		{syscall.ENOSPC, "the disk is full"},
		{syscall.ENOTDIR, "a part of its path is a file, not a folder"},
		{syscall.EISDIR, "it is a folder"},
		{syscall.ENAMETOOLONG, "its name is too long"},
		{syscall.EROFS, "the disk can only be read"},
		{syscall.EPIPE, "nobody is reading any more"},
		{io.ErrShortWrite, "the disk is full"},
		{fs.ErrInvalid, "its name holds what is no letter"},
		{fs.ErrClosed, "it is closed"},
	}...) {
		if errors.Is(err, r.is) {
			return plainReason{r.words, err}
		}
	}
	var p *fs.PathError
	var l *os.LinkError
	switch {
	case errors.As(err, &p):
		return plainReason{p.Err.Error(), err}
	case errors.As(err, &l):
		return plainReason{l.Err.Error(), err}
	}
	return err
}

// said is what is said of an error of the system.
type said struct {
	is    error
	words string
}

type plainReason struct {
	words string
	error
}

func (p plainReason) Error() string { return p.words }
func (p plainReason) Unwrap() error { return p.error }
