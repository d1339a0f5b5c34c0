//go:build !(linux || darwin || freebsd || netbsd || openbsd || dragonfly)

package loomfile

import "os"

// CanHold says that an open journal can be told from one left behind.
const CanHold = false

// hold would keep other programs from an open file; here it cannot.
func hold(*os.File) bool { return true }
