package check

import (
	"fmt"
	"slices"

	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/schematic"
)

const (
	limitBusLow       = "bus_low_ohm"
	limitBusHigh      = "bus_high_ohm"
	limitBusUntwisted = "bus_untwisted_mm"
)

func busLimits() []Limit {
	ends := tables.Source{Title: "ISO 11898-2", Place: "two ends of 100 to 130 Ω, nominal 120 Ω", FromMemory: true}
	return []Limit{
		{Name: limitBusLow, Title: "least resistance between the wires of a bus", Unit: "ohm", value: fixed(50, ends)},
		{Name: limitBusHigh, Title: "most resistance between the wires of a bus", Unit: "ohm", value: fixed(65, ends)},
		{Name: limitBusUntwisted, Title: "longest bus wire that need not be twisted", Unit: "mm", value: fixed(100, practice("stubs at connectors and splices"))},
	}
}

var busEnds = Rule{
	ID:    "bus without its two ends",
	Title: "Resistors between the wires of a bus",
	Help: "A differential bus ends in one resistor of 120 Ω at either end, 60 Ω together between H and L. What is counted are the " +
		"resistors drawn, and what an ohmmeter between the wires would show. A resistor built into a unit is not seen: draw it as a part.",
	Source: "ISO 11898-2, two ends of 100 to 130 Ω (from memory)",
	run: func(r *run) {
		for _, b := range r.buses() {
			r.busEnds(b)
		}
	},
}

var busPair = Rule{
	ID:     "bus not twisted",
	Title:  "Bus wires that are not twisted with their partner",
	Help:   "The two wires of a differential bus are twisted with each other, but for short pieces at connectors and splices.",
	Source: "ISO 11898-2, twisted pair (from memory)",
	run: func(r *run) {
		for _, b := range r.buses() {
			r.busPair(b)
		}
	},
}

// bus is a pair of nets that units talk on.
type bus struct {
	high, low int // nets
	units     []*schematic.Part
	pin       [2]int // a node of each net
}

// buses finds the pairs of nets in which some unit has a pin for either wire of
// a bus. A pin that no wire leads to makes none.
func (r *run) buses() []bus {
	var out []bus
	for _, p := range r.parts() {
		if r.isTerminator(p) {
			continue
		}
		var highs, lows []int // nodes; the first of either make a bus, then the second
		for _, pin := range r.doc.PinsOf(p) {
			i := r.n.NodeOf(schematic.PinRef{Part: p.ID, Pin: pin.Name})
			if i < 0 || len(r.n.Nets[r.n.Nodes[i].Net].Wires) == 0 {
				continue
			}
			switch r.signal(&r.n.Nodes[i]) {
			case "bus-high":
				highs = append(highs, i)
			case "bus-low":
				lows = append(lows, i)
			}
		}
		for k := range min(len(highs), len(lows)) {
			high, low := r.n.Nodes[highs[k]].Net, r.n.Nodes[lows[k]].Net
			j := slices.IndexFunc(out, func(b bus) bool { return b.high == high && b.low == low })
			if j < 0 {
				j = len(out)
				out = append(out, bus{high: high, low: low, pin: [2]int{highs[k], lows[k]}})
			}
			out[j].units = append(out[j].units, p)
		}
	}
	return out
}

// isTerminator reports whether a part is nothing but a resistor.
func (r *run) isTerminator(p *schematic.Part) bool {
	b := r.n.PartBranches(p.ID)
	return len(b) == 1 && r.n.Branches[b[0]].Element.Type == schematic.ElemResistor
}

func (b bus) keys() []schematic.Key {
	var out []schematic.Key
	for _, p := range b.units {
		out = append(out, p.Key())
	}
	return out
}

func (b bus) names() string {
	var out []string
	for _, p := range b.units {
		out = append(out, p.Name)
	}
	return list(out)
}

func (r *run) busEnds(b bus) {
	pin := r.n.Nodes[b.pin[0]].Pin.Pin
	var ends []string
	f := Finding{Items: b.keys()}
	for i := range r.n.Branches {
		br := &r.n.Branches[i]
		if br.Role != netlist.RoleElement || br.Element.Type != schematic.ElemResistor {
			continue
		}
		x, y := r.n.Nodes[br.A].Net, r.n.Nodes[br.B].Net
		if x == b.high && y == b.low || x == b.low && y == b.high {
			ends = append(ends, br.Name())
			f.Items = append(f.Items, br.Key())
		}
	}
	if len(b.units) < 2 && len(ends) < 2 {
		f.Severity, f.Missing = NotAssessed, "the other units of the bus"
		f.Text = fmt.Sprintf("The ends of the bus of %s are not assessed: no other unit is drawn on it, and %s.", b.names(), counted(len(ends)))
		r.add(f, pin)
		return
	}
	if len(ends) != 2 {
		f.Severity, f.Value, f.Limit = Warning, schematic.Some(float64(len(ends))), schematic.Some(2)
		f.Text = fmt.Sprintf("The bus of %s needs a resistor at either end; %s.", b.names(), counted(len(ends)))
		r.add(f, pin)
		return
	}
	reading, err := netlist.Continuity(r.n, b.pin[0], b.pin[1], netlist.Bench{})
	low, srcLow := r.limit(limitBusLow)
	high, srcHigh := r.limit(limitBusHigh)
	f.Unit, f.Value = "ohm", schematic.Some(reading.Ohm)
	switch {
	case err != nil || len(reading.Missing) > 0:
		f.Severity, f.Missing, f.Value = NotAssessed, "the resistance of "+list(r.n.Names(reading.Missing)), schematic.Num{}
		f.Text = fmt.Sprintf("What lies between the wires of the bus of %s is not assessed: the resistance of %s is missing.", b.names(), list(r.n.Names(reading.Missing)))
	case reading.Ohm < low:
		f.Severity, f.Source = Warning, srcLow.String()
		f.Limit, f.Margin = schematic.Some(low), schematic.Some(reading.Ohm-low)
		f.Text = fmt.Sprintf("Between the wires of the bus of %s lie %s, less than %s.", b.names(), ohms(reading.Ohm), ohms(low))
	case reading.Ohm > high:
		f.Severity, f.Source = Warning, srcHigh.String()
		f.Limit, f.Margin = schematic.Some(high), schematic.Some(high-reading.Ohm)
		f.Text = fmt.Sprintf("Between the wires of the bus of %s lie %s, more than %s.", b.names(), ohms(reading.Ohm), ohms(high))
	default:
		return
	}
	f.Formula = list(ends) + " side by side with what else lies between the wires"
	r.add(f, pin)
}

func counted(n int) string {
	switch n {
	case 0:
		return "none is drawn"
	case 1:
		return "one is drawn"
	}
	return fmt.Sprintf("%d are drawn", n)
}

func (r *run) busPair(b bus) {
	limit, src := r.limit(limitBusUntwisted)
	a := r.untwisted(b.high, b.low, limit, false)
	say := func(wires []*schematic.Wire) ([]schematic.Key, []string) {
		items, names := b.keys(), []string{}
		for _, w := range wires {
			items, names = append(items, w.Key()), append(names, w.Name)
		}
		slices.SortFunc(names, schematic.CompareNames)
		return items, names
	}
	if len(a.long) > 0 {
		items, straight := say(a.long)
		r.add(Finding{Severity: Warning, Items: items, Unit: "mm", Source: src.String(), Fixes: r.twisted(a, b.high, b.low),
			Value: schematic.Some(a.longest), Limit: schematic.Some(limit), Margin: schematic.Some(limit - a.longest),
			Text:    fmt.Sprintf("%s of the bus of %s %s not twisted with %s, up to %s long.", list(straight), b.names(), is(len(straight)), partnerWord(len(straight)), mm(a.longest)),
			Formula: fmt.Sprintf("%s > %s", mm(a.longest), mm(limit))}, r.n.Nodes[b.pin[0]].Pin.Pin)
	}
	if len(a.unknown) > 0 {
		items, unknown := say(a.unknown)
		r.add(Finding{Severity: NotAssessed, Items: items, Missing: "length of " + list(unknown),
			Text: fmt.Sprintf("%s of the bus of %s %s not twisted with %s, and may be short enough: the length is missing.", list(unknown), b.names(), is(len(unknown)), partnerWord(len(unknown)))}, "length", r.n.Nodes[b.pin[0]].Pin.Pin)
	}
}

func partnerWord(n int) string {
	if n == 1 {
		return "its partner"
	}
	return "their partners"
}
