package edit

import (
	"fmt"
	"math"
	"slices"

	"loomwright/schematic"
)

func sane(v float64) error {
	if math.IsNaN(v) || math.Abs(v) > schematic.MaxNum {
		return fmt.Errorf("%g is not a usable number: give one within ±%g", v, schematic.MaxNum)
	}
	return nil
}

// positive accepts unknown numbers and those from 0 up.
func positive(n schematic.Num) error {
	v, known := n.Get()
	if !known {
		return nil
	}
	if v < 0 {
		return fmt.Errorf("%g is negative: give 0 or more", v)
	}
	return sane(v)
}

func validBuild(name string, b schematic.Build) error {
	if b != "" && !slices.Contains(schematic.Builds(), b) {
		return fmt.Errorf("%s: %q is not a build step: choose one of %v", name, b, schematic.Builds())
	}
	return nil
}
