// Loomwright is the editor for vehicle harness drawings.
//
// Usage: loomwright [-frames] [file.loom.json]
//
// Without a file it shows a small example.
package main

import (
	"flag"
	"fmt"
	"os"

	"fyne.io/fyne/v2/app"

	"loomwright/ui"
)

func main() {
	flag.Usage = func() {
		fmt.Fprintln(flag.CommandLine.Output(), "usage: loomwright [-frames] [file.loom.json]")
		flag.PrintDefaults()
	}
	frames := flag.Bool("frames", false, "show in the status line how long the last picture of the drawing took to paint")
	flag.Parse()
	if flag.NArg() > 1 {
		flag.Usage()
		os.Exit(2)
	}
	a := app.NewWithID("org.loomwright.editor")
	ed, err := ui.New(a, ui.Options{Path: flag.Arg(0), Example: flag.NArg() == 0, Frames: *frames, Ended: endSoon})
	if err != nil {
		fmt.Fprintln(os.Stderr, "loomwright:", err)
		os.Exit(1)
	}
	go giveBack()
	go endWhenTold()
	ed.Show()
	a.Run()
}
