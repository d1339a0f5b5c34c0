package netlist_test

import (
	"fmt"

	"loomwright/netlist"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
)

// A battery, a lamp and two wires: the current, and the way it takes.
func Example() {
	lib, err := catalog.Default()
	if err != nil {
		fmt.Println(err)
		return
	}
	battery, lamp := schematic.ID{1}, schematic.ID{2}
	d := schematic.New(lib)
	for _, it := range []schematic.Item{
		&schematic.Part{ID: battery, Name: "G1", Kind: "battery"},
		&schematic.Part{ID: lamp, Name: "E1", Kind: "lamp", Values: map[string]float64{"watt": 21}},
		&schematic.Wire{ID: schematic.ID{3}, Name: "W1", A: schematic.End{Part: battery, Pin: "+"}, B: schematic.End{Part: lamp, Pin: "1"}},
		&schematic.Wire{ID: schematic.ID{4}, Name: "W2", A: schematic.End{Part: lamp, Pin: "2"}, B: schematic.End{Part: battery, Pin: "-"}},
	} {
		d = d.With(schematic.Put{Key: it.Key(), Item: it})
	}
	n := netlist.Build(d)
	s := n.Solve(nil)
	amp, _ := s.WireAmp(schematic.ID{3})
	fmt.Printf("%.2f A\n", amp)
	for _, step := range s.TracePart(lamp).Main {
		br := &n.Branches[step.Branch]
		fmt.Println(n.Nodes[step.From].Name, br.Name(), br.Missing)
	}
	// Output:
	// 1.79 A
	// G1.+ W1 [size length]
	// E1.1 E1 []
	// E1.2 W2 [size length]
}
