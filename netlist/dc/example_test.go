package dc_test

import (
	"fmt"

	"loomwright/netlist/dc"
)

// A 12.6 V source with 10 mΩ inside, a wire out, a load of 55 W and a wire back.
func Example() {
	n := dc.New(4)
	const minus, plus, feed, ground = 0, 1, 2, 3
	check := func(_ dc.Element, err error) {
		if err != nil {
			fmt.Println(err)
		}
	}
	check(n.VoltageSource(plus, minus, 12.6, 0.010))
	check(n.Resistor(plus, feed, 0.040))
	check(n.Device(feed, ground, dc.ConstantPower{Watt: 55, MinVolt: 8}))
	check(n.Resistor(ground, minus, 0.020))
	if err := n.SetReference(minus); err != nil {
		fmt.Println(err)
	}

	var s dc.Solution
	if err := n.Solve(&s); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("load: %.3f A at %.3f V, %v\n", s.Amp[2], s.Volt[feed]-s.Volt[ground], s.State[2])

	// A corroded ground: only what depends on it is computed again.
	if err := n.SetOhm(3, 1.5); err != nil {
		fmt.Println(err)
	}
	if err := n.Solve(&s); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("bad ground: %.3f A at %.3f V, %v\n", s.Amp[2], s.Volt[feed]-s.Volt[ground], s.State[2])

	// Output:
	// load: 4.476 A at 12.287 V, normal
	// bad ground: 4.643 A at 5.403 V, starved
}

// A part of the network without a path to the reference has no voltage against it.
func ExampleSolution_Floating() {
	n := dc.New(3)
	_, _ = n.VoltageSource(1, 0, 12, 0.1)
	link, _ := n.Resistor(1, 2, 0.1)
	_ = n.SetReference(0)
	_ = n.Open(link)
	var s dc.Solution
	if err := n.Solve(&s); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(s.Floating(1), s.Floating(2))
	// Output: false true
}

// What is left at the load if one of its wires breaks.
func ExampleNetwork_Variations() {
	n := dc.New(4)
	const minus, plus, middle, load = 0, 1, 2, 3
	_, _ = n.VoltageSource(plus, minus, 12, 0.01)
	_, _ = n.Resistor(load, minus, 5)
	wires := [3]dc.Element{}
	wires[0], _ = n.Resistor(plus, load, 0.1) // a ring of three wires feeds the load
	wires[1], _ = n.Resistor(plus, middle, 0.1)
	wires[2], _ = n.Resistor(middle, load, 0.1)
	_ = n.SetReference(minus)

	changes := []dc.Change{}
	for _, w := range wires {
		changes = append(changes, dc.Opened(w))
	}
	var s dc.Solution
	for i, err := range n.Variations(&s, changes) {
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Printf("wire %d open: %.3f V\n", wires[i], s.Volt[load])
	}
	ohm, _ := n.ResistanceBetween(plus, load)
	fmt.Printf("plus to load: %.4f ohms\n", ohm)
	// Output:
	// wire 2 open: 11.516 V
	// wire 3 open: 11.742 V
	// wire 4 open: 11.742 V
	// plus to load: 0.0658 ohms
}
