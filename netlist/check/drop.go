package check

import (
	"fmt"
	"math"

	"loomwright/netlist"
	"loomwright/schematic"
)

var dropRule = Rule{
	ID:    "voltage drop",
	Title: "Volts lost on the way to a load and back",
	Help: "In every operating state the volts lost in wires, plugs, contacts, fuses, drivers and joints are added up along the largest " +
		"current, from the source to the load and from the load back. The feed alone and the whole circuit have limits by the kind " +
		"of load. The return alone is looked at as ground.",
	Source: "automotive handbook (from memory); vehicle workshop manuals, seen second-hand; ABYC E-11 and ISO 10133, quoted second-hand",
	run: func(r *run) {
		o := others{r: r}
		for i := range r.n.Branches {
			if br := &r.n.Branches[i]; br.IsLoad() && len(br.Missing) == 0 {
				r.drop(i, br, &o)
			}
		}
		o.tell("the volts lost on the way to", "are more than the figures say, and not assessed")
	},
}

// lost is what a load loses in one operating state.
type lost struct {
	s          *netlist.Solution
	feed, back way
	value      float64 // V
	limit      float64 // V
	name       string  // of the limit
	source     string  // of the limit
	circuit    bool    // both sides, not the feed alone
}

func (l lost) total() float64 { return l.feed.volt + l.back.volt }

// over compares two losses by how far they are beyond their limits.
func (l lost) over(m lost) bool { return m.s == nil || l.value*m.limit > m.value*l.limit }

func (r *run) drop(i int, br *netlist.Branch, o *others) {
	row, ok := dropRowOf(r.n, br)
	if !ok {
		return
	}
	var worst lost
	for _, s := range r.usable() {
		if math.Abs(s.Amp[i]) <= quiet {
			continue
		}
		l, ok := r.lostIn(s, i, row)
		if !ok {
			continue
		}
		if unknown := append(l.feed.unknown, l.back.unknown...); len(unknown) > 0 {
			r.dropUnknown(br, s, unknown)
			return
		}
		if l.over(worst) {
			worst = l
		}
	}
	if worst.s == nil || worst.value <= worst.limit {
		if worst.s != nil {
			o.keeps(i, worst.feed.lines, worst.back.lines)
		}
		return
	}
	f := of(worst.s, Finding{Severity: Warning, Items: []schematic.Key{br.Key()}, Pins: pinsOf(br), Unit: "V",
		Value: schematic.Some(worst.value), Limit: schematic.Some(worst.limit), Margin: schematic.Some(worst.limit - worst.value),
		Source: worst.source})
	what := "on the feed"
	if worst.circuit {
		what = "in the whole circuit"
	}
	f.Text = fmt.Sprintf("%s loses %s %s, %s are allowed: %s on the feed and %s on the return at %s.", br.Name(), volts(worst.value), what,
		volts(worst.limit), volts(worst.feed.volt), volts(worst.back.volt), amps(math.Abs(worst.s.Amp[i])))
	f.Formula = r.sum(worst)
	f.remedy = func() []Fix { return r.thickerForDrop(i, row, worst) }
	r.add(f, br.Element.Name)
}

// dropUnknown says that a drop cannot be told for want of data on the way.
func (r *run) dropUnknown(br *netlist.Branch, s *netlist.Solution, unknown []int) {
	f := of(s, Finding{Severity: NotAssessed, Items: []schematic.Key{br.Key()}, Pins: pinsOf(br), Unit: "V"})
	var what []string
	for _, i := range unknown {
		u := &r.n.Branches[i]
		f.Items = append(f.Items, u.Key())
		what = append(what, u.MissingOf())
	}
	f.Missing = list(what)
	f.Text = fmt.Sprintf("The drop to %s is not assessed: %s %s missing.", br.Name(), f.Missing, is(len(what)))
	r.add(f, br.Element.Name)
}

// lostIn measures a load's circuit in one operating state against the limit it
// comes nearest to; false when no source feeds it.
func (r *run) lostIn(s *netlist.Solution, i int, row dropRow) (lost, bool) {
	feed, back := r.flow(s).sides(i)
	if feed.supply < 0 {
		return lost{}, false
	}
	share := r.supplyShare(feed.supply)
	l := lost{s: s, feed: feed, back: back, circuit: true}
	limit, src := r.dropLimit(row)
	l.value, l.limit, l.name, l.source = l.total(), limit*share, row.circuitLimit(), src.String()
	if limit, src, ok := r.dropLineLimit(row); ok {
		line := l
		line.value, line.limit, line.name, line.source, line.circuit = feed.volt, limit*share, row.lineLimit(), src.String(), false
		if line.over(l) {
			l = line
		}
	}
	return l, true
}

// supplyShare is how much smaller the limits are for what hangs on a regulator
// instead of the battery.
func (r *run) supplyShare(supply int) float64 {
	br := &r.n.Branches[supply]
	if br.IsSource() {
		return 1
	}
	return math.Min(1, math.Max(0, br.Value("volt").Or(0)/r.doc.Info().Volts()))
}

// sum writes out the largest parts of a loss.
func (r *run) sum(l lost) string {
	lines := append([]int{}, l.feed.lines...)
	if l.circuit {
		lines = append(lines, l.back.lines...)
	}
	return r.sumOf(l.s, lines, l.value)
}

// sumOf writes a voltage as the sum over branches, small ones taken together.
func (r *run) sumOf(s *netlist.Solution, lines []int, total float64) string {
	text, rest := "", 0.0
	for _, i := range lines {
		v, _ := s.Across(i)
		if v = math.Abs(v); v < total/20 {
			rest += v
			continue
		}
		if text != "" {
			text += " + "
		}
		text += r.n.Branches[i].Name() + " " + volts(v)
	}
	if rest > 0 {
		text += " + others " + volts(rest)
	}
	return text + " = " + volts(total)
}

// thickerForDrop offers the next larger size of the wire that loses most, such
// that the drop is within its limits in every operating state.
func (r *run) thickerForDrop(load int, row dropRow, l lost) []Fix {
	wire, most := r.lossiest(l)
	if wire < 0 || r.starved(wire) {
		return nil
	}
	br := &r.n.Branches[wire]
	need := l.value - l.limit
	if r.trials >= mostTrials || most < need {
		return nil
	}
	return r.thickerWire(wire, r.drawing(load),
		func(ohm float64) bool { return most*(1-ohm/br.Ohm) >= need },
		func(after []*netlist.Solution, _ float64) (string, bool) {
			worst := r.mostLost(after, load, row)
			return fmt.Sprintf("drop falls from %s to %s", volts(l.value), volts(worst.value)), worst.s != nil && worst.value <= worst.limit*surely
		})
}

// mostLost measures a load in the operating state that is worst for it.
func (r *run) mostLost(sols []*netlist.Solution, load int, row dropRow) lost {
	var worst lost
	for _, s := range sols {
		if l, ok := r.lostIn(s, load, row); ok && l.over(worst) {
			worst = l
		}
	}
	return worst
}

// lossiest returns the wire that loses most and how much, -1 when it is no wire.
func (r *run) lossiest(l lost) (wire int, volt float64) {
	wire = -1
	lines := append([]int{}, l.feed.lines...)
	if l.circuit {
		lines = append(lines, l.back.lines...)
	}
	for _, i := range lines {
		v, _ := l.s.Across(i)
		if v = math.Abs(v); v > volt && r.n.Branches[i].Role == netlist.RoleWire {
			wire, volt = i, v
		}
	}
	return wire, volt
}
