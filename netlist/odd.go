package netlist

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/schematic"
)

// OddityKind says what is odd about a drawing.
type OddityKind string

// What [Netlist.Shorts] and [Netlist.ReversedDiodes] name.
const (
	OddShort         OddityKind = "source shorted"      // a way from plus to minus without a load, whatever is switched
	OddSwitchShort   OddityKind = "switch can short"    // the same in a position that switches, relays and drivers can take
	OddReversedDiode OddityKind = "diode the wrong way" // the only way of a load leads through a diode against its direction
	OddDiodeShort    OddityKind = "diode shorts source" // a diode in its forward direction from plus to minus
)

// Oddity is one odd thing that needs no figures to be seen, with the branches
// or nodes it is about.
type Oddity struct {
	Kind     OddityKind
	Branches []int // the way, in order from plus, for shorts; else what is odd
	Nodes    []int
	Text     string // a plain sentence
}

// isOpen reports whether a branch never carries a current.
func (b *Branch) isOpen() bool { return b.Role == RoleElement && b.Element.Type == schematic.ElemOpen }

// shuntOhm is the resistance below which a resistor that is no load holds no
// current back.
const shuntOhm = 1

// hard reports whether a branch carries a current on without a load, whatever
// is switched.
func (b *Branch) hard() bool {
	if b.Role != RoleElement {
		return true
	}
	switch b.Element.Type {
	case schematic.ElemJoint, schematic.ElemFuse:
		return true
	case schematic.ElemResistor:
		return !b.IsLoad() && b.OhmKnown && b.Ohm < shuntOhm
	}
	return false
}

// switched reports whether a branch carries a current on in some position.
func (b *Branch) switched() bool {
	return b.Role == RoleElement && (b.Element.Type == schematic.ElemContact || b.Element.Type == schematic.ElemOutput)
}

// oneWay reports whether a branch is a plain diode.
func (b *Branch) oneWay() bool {
	return b.Role == RoleElement && b.Element.Type == schematic.ElemDiode && b.Element.Load == ""
}

// ReversedDiodes finds loads that have a circuit only against the direction of
// a diode.
func (n *Netlist) ReversedDiodes() []Oddity {
	var plain []int
	for i := range n.Branches {
		if n.Branches[i].oneWay() && !n.hasLoad(n.Branches[i].Part) {
			plain = append(plain, i)
		}
	}
	if len(plain) == 0 {
		return nil
	}
	plus, minus := n.sourceEnds()
	// What a current can reach from plus, and from where it can reach minus.
	fed, drained := n.reach(plus, reach{down: true}), n.reach(minus, reach{})
	// The same for loads in series with others.
	fedOn, drainedOn := n.reach(plus, reach{down: true, stop: drained}), n.reach(minus, reach{stop: fed})
	blocked := map[int][]string{}
	for i := range n.Branches {
		br := &n.Branches[i]
		if !br.IsLoad() || br.Pin != nil || br.Element.Load == "charging" {
			continue
		}
		if fed[br.A] && drained[br.B] || fed[br.B] && drained[br.A] || fedOn[br.A] && drainedOn[br.B] || fedOn[br.B] && drainedOn[br.A] {
			continue
		}
		for _, d := range plain {
			f, g := n.reach(plus, reach{down: true, turned: d + 1}), n.reach(minus, reach{turned: d + 1})
			if slices.ContainsFunc(minus, func(node int) bool { return f[node] }) {
				continue // turned round it would short the source: it lies across a coil, as a suppressor does
			}
			if f[br.A] && g[br.B] || f[br.B] && g[br.A] {
				blocked[d] = append(blocked[d], br.Name())
			}
		}
	}
	var out []Oddity
	for _, d := range plain {
		if loads := blocked[d]; len(loads) > 0 {
			br := &n.Branches[d]
			out = append(out, Oddity{Kind: OddReversedDiode, Branches: []int{d}, Nodes: []int{br.A, br.B},
				Text: fmt.Sprintf("%s blocks the only way of %s: turn it round.", br.Name(), listOf(loads))})
		}
	}
	return out
}

// hasLoad reports whether a part holds a load: its diodes belong to it.
func (n *Netlist) hasLoad(p *schematic.Part) bool {
	return slices.ContainsFunc(n.parts[p.ID], func(i int) bool { return n.Branches[i].IsLoad() })
}

// sourceEnds returns the nodes at the plus and the minus of all sources.
func (n *Netlist) sourceEnds() (plus, minus []int) {
	for i := range n.Branches {
		if br := &n.Branches[i]; br.IsSource() {
			plus, minus = append(plus, br.A), append(minus, br.B)
		}
	}
	return plus, minus
}

// reach says how far a current is followed.
type reach struct {
	down   bool   // along the direction of diodes, else against it
	turned int    // a diode taken the other way round, plus 1; 0 for none
	stop   []bool // loads are passed, and these nodes not left; nil: no load is passed
	closed []bool // contacts that are closed, by branch; nil: all of them
	cut    int    // a branch that is not there, plus 1; 0 for none
}

// reach returns the nodes a current can get to from some nodes.
func (n *Netlist) reach(from []int, how reach) []bool {
	seen := make([]bool, len(n.Nodes))
	todo := slices.Clone(from)
	for _, i := range from {
		seen[i] = true
	}
	for len(todo) > 0 {
		node := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if how.stop != nil && how.stop[node] {
			continue
		}
		for _, i := range n.at[node] {
			br := &n.Branches[i]
			to := br.Other(node)
			switch {
			case seen[to] || i+1 == how.cut || how.closed != nil && !how.closed[i] && br.Role == RoleElement:
				continue
			case br.Role == RoleElement && br.Element.Type == schematic.ElemDiode:
				if (br.A == node) != (how.down != (i+1 == how.turned)) {
					continue
				}
			case how.stop != nil && br.IsLoad():
			case br.Role != RoleElement || br.hard() || br.switched() || br.Element.Type == schematic.ElemResistor && !br.IsLoad():
			default:
				continue
			}
			seen[to] = true
			todo = append(todo, to)
		}
	}
	return seen
}

// listOf joins names as a sentence does.
func listOf(names []string) string {
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return strings.Join(names, "")
}
