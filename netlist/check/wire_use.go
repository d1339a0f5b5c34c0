package check

import (
	"loomwright/netlist"
	"loomwright/schematic"
)

// WireUse is what a wire has to do as the drawing has it, for choosing its size.
type WireUse struct {
	Amp       schematic.Num // largest lasting current, A; unknown where a load behind it is
	StateName string        // in which it flows
	LengthMM  schematic.Num
	AmbientC  float64
	Assumed   bool // the ambient temperature is
	Bundled   int  // most loaded wires round it in any state, itself included
}

// UseOf looks at a wire in a netlist and its computed operating states.
func UseOf(n *netlist.Netlist, sols []*netlist.Solution, wire schematic.ID) (WireUse, bool) {
	i := n.WireBranch(wire)
	if i < 0 {
		return WireUse{}, false
	}
	r := &run{n: n, doc: n.Doc, sols: sols}
	c := n.Branches[i].Conductor
	u := WireUse{AmbientC: c.AmbientC, Assumed: c.Assumed, Bundled: r.mostCrowded(i)}
	if c.LengthMM > 0 {
		u.LengthMM = schematic.Some(c.LengthMM)
	}
	if s, amp := r.worst(i, sustained); s != nil && !r.starved(i) {
		u.Amp = schematic.Some(amp)
		if s.State != nil {
			u.StateName = s.State.Name
		}
	}
	return u, true
}

// LoadDrop is what a kind of load may lose, in V, in one document.
type LoadDrop struct {
	Name, Title   string
	Feed, Circuit float64 // on the feed alone, 0 where that has no limit of its own; feed and return together
	FeedSource    string
	CircuitSource string
}

// LoadDrops lists the kinds of loads with their limits in a document.
func LoadDrops(d *schematic.Doc) []LoadDrop {
	r := &run{doc: d}
	var out []LoadDrop
	for _, row := range dropRows {
		l := LoadDrop{Name: row.name, Title: row.title}
		v, src := r.limit(row.circuitLimit())
		l.Circuit, l.CircuitSource = v, src.String()
		if row.line != 0 {
			v, src := r.limit(row.lineLimit())
			l.Feed, l.FeedSource = v, src.String()
		}
		out = append(out, l)
	}
	return out
}
