package main

import (
	"errors"
	"flag"
	"fmt"
	"os"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/loomfile"
	"loomwright/schematic/sample"
)

// generate writes a sample harness.
func generate(args []string) error {
	f := flag.NewFlagSet("generate", flag.ContinueOnError)
	wires := f.Int("wires", 1000, "how many `wires` the harness has")
	seed := f.Uint64("seed", 1, "the same `seed` gives the same harness")
	one := f.Bool("one-sheet", false, "draw everything on one sheet")
	out := f.String("o", "", "the `file` to write, ending in .loom.json")
	if err := f.Parse(args); err != nil {
		return err
	}
	switch {
	case *out == "" || f.NArg() > 0:
		return errors.New("generate: name the file to write with -o FILE, and nothing else")
	case *wires < sample.LeastWires:
		return fmt.Errorf("generate: %d wires make no harness; give at least %d", *wires, sample.LeastWires)
	}
	lib, err := catalog.Default()
	if err != nil {
		return err
	}
	d := sample.Harness(lib, *wires, *seed)
	if *one {
		if d, err = sample.OnOneSheet(d); err != nil {
			return fmt.Errorf("generate: %w", err)
		}
	}
	if err := loomfile.Save(*out, d); err != nil {
		return fmt.Errorf("generate: %w", err)
	}
	fmt.Fprintf(os.Stderr, "%s: %d wires, %d parts, %d sheets\n", *out, d.Len(schematic.TypeWire), d.Len(schematic.TypePart), d.Len(schematic.TypeSheet))
	return nil
}
