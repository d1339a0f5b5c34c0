package netlist

import (
	"slices"
	"strings"
)

// LostGrounds opens every wire, plugged contact and joint of the ground in turn
// and lists the loads whose current then comes back another way: through other
// loads, coils or lamps, in the operating states already computed. Only pieces
// matter behind which a load could pass its current on: at least two loads hang
// there, and nothing else leads from there to battery negative. Loads that are
// fed so with all grounds in place are left to [Sneaks]. Pieces lost together,
// as the wires under one bolt, are not tried: the bolt's joint is a piece.
//
// It goes on for as long as going says so, which is told the share done; ok is
// false when it was stopped, and the list then holds what was found so far.
func LostGrounds(sols []*Solution, going func(share float64) bool) (list []Sneak, ok bool) {
	if len(sols) == 0 || sols[0].Netlist.Reference < 0 {
		return nil, true
	}
	n := sols[0].Netlist
	designed := n.ownCircuits(nil, 0)
	solver := NewSolver(n)
	pieces := n.groundPieces()
	var found sneakList
	anyway := make([]map[int]bool, len(sols)) // loads fed so with all grounds in place
	for k, s := range sols {
		anyway[k] = map[int]bool{}
		if s.Err == nil {
			for _, x := range s.sneakFeeds(designed, -1) {
				anyway[k][x.Items[0]] = true
			}
		}
	}
	for k, i := range pieces {
		if n.loadsLost(i) >= 2 {
			solver.SetCut(i, true)
			for k, s := range sols {
				if s.Err != nil {
					continue
				}
				if x := solver.Solve(s.State); x.Err == nil {
					found.add(slices.DeleteFunc(x.sneakFeeds(designed, i), func(y Sneak) bool { return anyway[k][y.Items[0]] }))
				}
			}
			solver.SetCut(i, false)
		}
		if !going(float64(k+1) / float64(len(pieces))) {
			return found.list, false
		}
	}
	return found.list, true
}

// groundPieces lists what carries battery negative on: joints, plugged contacts
// and wires, in the order of the branches.
func (n *Netlist) groundPieces() []int {
	home := n.Nodes[n.Reference].Net
	var out []int
	for i := range n.Branches {
		if br := &n.Branches[i]; br.sameNet() && br.A != br.B && n.Nodes[br.A].Net == home {
			out = append(out, i)
		}
	}
	return out
}

// loadsLost counts the loads that lose battery negative with a piece of the
// ground, on one of their sides; 0 where another way leads there.
func (n *Netlist) loadsLost(piece int) int {
	_, minus := n.sourceEnds()
	left := n.reach(minus, reach{cut: piece + 1})
	lost := n.Branches[piece].A
	if left[lost] {
		lost = n.Branches[piece].B
	}
	if left[lost] {
		return 0
	}
	return n.loadsBehind(lost, piece)
}

// loadsBehind counts the loads at the end of a cut wire.
func (n *Netlist) loadsBehind(node, cut int) int {
	lost := n.reach([]int{node}, reach{cut: cut + 1})
	parts := map[string]bool{}
	for i := range n.Branches {
		if br := &n.Branches[i]; br.IsLoad() && lost[br.A] != lost[br.B] {
			parts[strings.Join([]string{br.Part.Name, br.Element.Name}, " ")] = true
		}
	}
	return len(parts)
}
