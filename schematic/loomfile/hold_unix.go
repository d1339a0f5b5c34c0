//go:build linux || darwin || freebsd || netbsd || openbsd || dragonfly

package loomfile

import (
	"errors"
	"os"
	"syscall"
)

// CanHold says that an open journal can be told from one left behind.
const CanHold = true

// hold keeps other programs from taking an open file for one left behind, until
// it is closed or its program ends, however that ends. It reports false when
// another one holds it; a file system that knows no such thing holds for all.
func hold(f *os.File) bool {
	return !errors.Is(syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB), syscall.EWOULDBLOCK)
}
