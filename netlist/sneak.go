package netlist

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"loomwright/calc/unit"
	"loomwright/schematic"
)

// SneakKind says what a current does that nobody meant it to.
type SneakKind string

// The kinds of sneak paths.
const (
	SneakFed    SneakKind = "fed while switched off"      // a load draws current though its own switch is off
	SneakTwo    SneakKind = "two fuses feed one net"      // pulling one fuse does not make the circuit dead
	SneakLoop   SneakKind = "ground loop"                 // a sensor ground or screen has a second way to ground
	SneakGround SneakKind = "returns through another way" // a ground is lost and the load's current goes back through other loads
)

// Sneak is one way a current takes that nobody meant it to.
type Sneak struct {
	Kind  SneakKind
	State *schematic.State // nil where it does not depend on one
	Fault int              // branch that is open, -1 without a fault
	Items []int            // the branches it is about, the main one first
	Pins  []int            // nodes it is about
	Volt  float64          // across the load, V
	Amp   float64          // through the load, A
	Path  Trace            // the way of the current
	In    *Solution        // where it flows, with the fault; nil where it does not depend on currents
	Text  string
}

// A load counts as fed from a current and a share of the system voltage on: an
// indicator shows a faint light from half a milliampere (common practice, no
// source), a leak stays below both.
const (
	sneakAmp   = 0.5e-3
	sneakShare = 0.05
)

// Sneaks finds sneak paths in operating states already computed, in the order
// of kinds, states and parts:
//
//   - loads that draw current in a state that leaves them no circuit of their own,
//     because it comes back through other loads, coils, lamps or an exciter. A
//     load that never has a circuit without others, such as one of two in series,
//     is not meant;
//   - nets that two fuses feed from the same source;
//   - sensor grounds and screens with a second way to ground.
//
// What a lost ground makes of a harness, [LostGrounds] tells.
func Sneaks(sols []*Solution) []Sneak {
	if len(sols) == 0 {
		return nil
	}
	n := sols[0].Netlist
	var found sneakList
	designed := n.ownCircuits(nil, 0)
	for _, s := range sols {
		if s.Err == nil {
			found.add(s.sneakFeeds(designed, -1))
		}
	}
	for _, s := range sols {
		found.add(s.twoFuses())
	}
	found.add(n.groundLoops())
	return found.list
}

// sneakList holds each sneak path once, in the first state it is found in.
type sneakList struct {
	list []Sneak
	said map[string]bool
}

func (l *sneakList) add(more []Sneak) {
	if l.said == nil {
		l.said = map[string]bool{}
	}
	for _, s := range more {
		key := fmt.Sprint(s.Kind, s.Items, s.Fault)
		if !l.said[key] {
			l.said[key] = true
			l.list = append(l.list, s)
		}
	}
}

// ownCircuits reports by branch which loads have a circuit that leads through
// no other load, with the contacts given (nil: all closed) and a branch cut
// (plus 1; 0 for none).
func (n *Netlist) ownCircuits(closed []bool, cut int) []bool {
	plus, minus := n.sourceEnds()
	fed := n.reach(plus, reach{down: true, closed: closed, cut: cut})
	drained := n.reach(minus, reach{closed: closed, cut: cut})
	own := make([]bool, len(n.Branches))
	for i := range n.Branches {
		if br := &n.Branches[i]; br.IsLoad() {
			own[i] = fed[br.A] && drained[br.B] || fed[br.B] && drained[br.A]
		}
	}
	return own
}

// sneakFeeds lists the loads that draw current in a state without a circuit of
// their own, the largest current of a part only.
func (s *Solution) sneakFeeds(designed []bool, fault int) []Sneak {
	n := s.Netlist
	own := n.ownCircuits(s.Closed, fault+1)
	worst := map[schematic.ID]Sneak{}
	var order []schematic.ID
	for i := range n.Branches {
		br := &n.Branches[i]
		if !designed[i] || own[i] || len(br.Missing) > 0 || br.Element.Load == "charging" {
			continue
		}
		volt, ok := s.Across(i)
		amp := math.Abs(s.Amp[i])
		if !ok || amp < sneakAmp || math.Abs(volt) < sneakShare*n.Doc.Info().Volts() && !s.ledOn(br) {
			continue
		}
		x := Sneak{Kind: SneakFed, In: s, State: s.State, Fault: fault, Items: []int{i}, Volt: math.Abs(volt), Amp: amp}
		had, twice := worst[br.Part.ID]
		if !twice {
			order = append(order, br.Part.ID)
		}
		if !twice || amp > had.Amp {
			worst[br.Part.ID] = x
		}
	}
	var out []Sneak
	for _, id := range order {
		x := worst[id]
		x.Path = s.TraceBranch(x.Items[0])
		x.Items = append(x.Items, s.detour(x.Path, x.Items[0])...)
		name := n.Branches[x.Items[0]].Name()
		x.Text = fmt.Sprintf("In %q %s is switched off but gets", s.State.Name, name)
		if fault >= 0 {
			x.Kind = SneakGround
			x.Text = fmt.Sprintf("With %s open, %s has no circuit of its own in %q but gets", n.Branches[fault].Name(), name, s.State.Name)
		}
		x.Text += fmt.Sprintf(" %s at %s", unit.Format(unit.Amp, x.Amp, unit.SI), unit.Format(unit.Volt, x.Volt, unit.SI))
		if through := x.Items[1:]; len(through) > 0 {
			x.Text += ", by way of " + listOf(n.Names(through))
		}
		x.Text += "."
		out = append(out, x)
	}
	slices.SortStableFunc(out, func(a, b Sneak) int { return cmp.Compare(a.Items[0], b.Items[0]) })
	return out
}

// ledOn reports whether a load is the resistor of an indicator: its own volts
// say little, the current does.
func (s *Solution) ledOn(br *Branch) bool { return br.Element.Load == "indicator" }

// detour lists the other loads on a traced way.
func (s *Solution) detour(t Trace, load int) []int {
	part := s.Netlist.Branches[load].Part
	var out []int
	for _, st := range t.Main {
		if br := &s.Netlist.Branches[st.Branch]; st.Branch != load && br.Part != nil && br.Part != part && br.IsLoad() {
			out = append(out, st.Branch)
		}
	}
	return out
}
