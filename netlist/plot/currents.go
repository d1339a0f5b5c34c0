package plot

import (
	"math"

	"loomwright/netlist"
	"loomwright/schematic"
	"loomwright/schematic/draw"
)

// Currents returns what is written on the wires of a drawing in a computed
// operating state: how much flows, and which way. Wires whose current is not
// known are left out.
func Currents(s *netlist.Solution) map[schematic.ID]draw.Current {
	m := map[schematic.ID]draw.Current{}
	for w := range s.Netlist.Doc.Wires() {
		amp, ok := s.WireAmp(w.ID)
		if !ok || math.IsNaN(amp) {
			continue
		}
		c := draw.Current{Text: amps(math.Abs(amp)), Flow: draw.AToB}
		switch {
		case math.Abs(amp) < netlist.LeastShownAmp:
			c.Text, c.Flow = "0 A", draw.NoFlow
		case amp < 0:
			c.Flow = draw.BToA
		}
		m[w.ID] = c
	}
	return m
}
