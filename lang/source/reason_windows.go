package source

import "syscall"

// The numbers of Windows (System Error Codes, learn.microsoft.com; from memory).
var systemReasons = []said{
	{syscall.Errno(19), "the disk can only be read"},
	{syscall.Errno(32), "it is open in another program"},
	{syscall.Errno(33), "another program holds a part of it"},
	{syscall.Errno(39), "the disk is full"},
	{syscall.Errno(109), "nobody is reading any more"},
	{syscall.Errno(112), "the disk is full"},
	{syscall.Errno(123), "its name holds a character that no file may have"},
	{syscall.Errno(206), "its name is too long"},
	{syscall.Errno(232), "nobody is reading any more"},
}
