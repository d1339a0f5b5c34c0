package check

import (
	"fmt"
	"math"

	"loomwright/netlist"
	"loomwright/schematic"
)

var charging = Rule{
	ID:    "charging line drop",
	Title: "Volts lost between alternator and battery",
	Help: "While the alternator works: what is lost between its positive terminal and that of the battery, and between the battery's " +
		"negative and its own. The battery is charged with what remains.",
	Source: "vehicle workshop manuals, voltage-drop tests, seen second-hand",
	run: func(r *run) {
		for i := range r.n.Branches {
			if br := &r.n.Branches[i]; br.IsSource() && br.Element.Type == schematic.ElemAlternator {
				r.charging(i, br)
			}
		}
	},
}

func (r *run) charging(i int, alternator *netlist.Branch) {
	at, _ := r.worst(i, anyState)
	battery := r.battery()
	if at == nil || battery == nil {
		return
	}
	v := func(from, to int) float64 {
		a, okA := at.VoltAt(from)
		b, okB := at.VoltAt(to)
		if !okA || !okB {
			return 0
		}
		return a - b
	}
	if unknown := r.unknownLines(at, alternator, battery); len(unknown) > 0 {
		r.dropUnknown(alternator, at, unknown)
		return
	}
	for _, side := range []struct {
		from, to int
		limit    string
		what     string
	}{
		{alternator.A, battery.A, limitCharge, "on the way to the battery"},
		{battery.B, alternator.B, limitChargeGround, "on the way back from the battery"},
	} {
		limit, src := r.limit(side.limit)
		volt := v(side.from, side.to)
		if volt <= limit {
			continue
		}
		r.add(of(at, Finding{Severity: Warning, Items: []schematic.Key{alternator.Key(), battery.Key()}, Unit: "V",
			Value: schematic.Some(volt), Limit: schematic.Some(limit), Margin: schematic.Some(limit - volt), Source: src.String(),
			remedy: func() []Fix { return r.thickerForCharging(at, side.from, side.to, volt, limit) },
			Text: fmt.Sprintf("%s loses %s %s at %s, %s are allowed.", alternator.Name(), volts(volt), side.what,
				amps(math.Abs(at.Amp[i])), volts(limit)),
			Formula: fmt.Sprintf("between the terminals of %s and %s: %s", alternator.Name(), battery.Name(), volts(volt))}), side.limit)
	}
}

// battery returns the battery that voltages are counted from, nil without one.
func (r *run) battery() *netlist.Branch {
	for i := range r.n.Branches {
		if br := &r.n.Branches[i]; br.IsSource() && br.Element.Type == schematic.ElemBattery && br.B == r.n.Reference {
			return br
		}
	}
	return nil
}

// unknownLines lists the lines without data that a current between the
// terminals of alternator and battery goes through.
func (r *run) unknownLines(s *netlist.Solution, alternator, battery *netlist.Branch) []int {
	b := findBlocks(len(r.n.Nodes), r.edges(), func(i int) bool { return s.Closed[i] && isLine(&r.n.Branches[i]) })
	var out []int
	for _, ends := range [][2]int{{alternator.A, battery.A}, {battery.B, alternator.B}} {
		on, _ := b.between(ends[0], ends[1])
		for i, block := range b.of {
			if on[block] && unknownLine(&r.n.Branches[i]) {
				out = append(out, i)
			}
		}
	}
	return out
}
