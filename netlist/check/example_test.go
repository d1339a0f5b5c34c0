package check_test

import (
	"fmt"

	"github.com/google/uuid"

	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
)

// A lamp of 60 W hangs on a battery by half a square millimetre, without a fuse.
func Example() {
	lib, err := catalog.Default()
	if err != nil {
		fmt.Println(err)
		return
	}
	id := func(name string) schematic.ID { return uuid.NewSHA1(uuid.Nil, []byte(name)) }
	end := func(part, pin string) schematic.End { return schematic.End{Part: id(part), Pin: pin} }
	d := schematic.New(lib)
	for _, it := range []schematic.Item{
		&schematic.Info{AmbientC: schematic.Some(40)},
		&schematic.Part{ID: id("G1"), Name: "G1", Kind: "battery"},
		&schematic.Part{ID: id("E1"), Name: "E1", Kind: "lamp", Values: map[string]float64{"watt": 60}},
		&schematic.Wire{ID: id("W1"), Name: "W1", A: end("G1", "+"), B: end("E1", "1"),
			Size: unit.MM2(0.5), Insulation: "FLRY", LengthMM: schematic.Some(2000)},
		&schematic.Wire{ID: id("W2"), Name: "W2", A: end("E1", "2"), B: end("G1", "-"),
			Size: unit.MM2(2.5), Insulation: "FLRY", LengthMM: schematic.Some(400)},
		&schematic.State{ID: id("on"), Name: "on"},
	} {
		d = d.With(schematic.Put{Key: it.Key(), Item: it})
	}
	n := netlist.Build(d)
	for _, f := range check.Run(n, n.SolveAll()) {
		fmt.Printf("%s: %s\n", f.Severity, f.Text)
	}
	// Output:
	// error: W1 has no fuse between it and G1: 2 m of wire lie unprotected, 178 mm are allowed.
	// error: E1 is fed at E1.1 without a fuse.
	// warning: Parked, G1 gives 5.03 A, 50 mA are allowed. Without the capacity nobody can say for how long.
	// not assessed: W1 and W2 are on no loom segment and count as lying alone: in a bundle they bear less.
	// note: No wire has a colour.
}
