//go:build unix

package source

import "syscall"

var systemReasons = []said{
	{syscall.EDQUOT, "your share of the disk is used up"},
	{syscall.ELOOP, "its links lead in a circle"},
	{syscall.EBADF, "it is closed"},
}
