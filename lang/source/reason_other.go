//go:build !unix && !windows

package source

var systemReasons []said
