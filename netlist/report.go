package netlist

import (
	"math"
	"slices"
	"strings"

	"loomwright/netlist/dc"
	"loomwright/schematic"
)

// report notes what the figures alone do not show at a glance: supplies at
// their limit, loads that starve, warm wires.
func (s *Solver) report(out *Solution) {
	warmth := make([]float64, 2*len(s.heats))
	out.ohm, out.tempC = warmth[:len(s.heats)], warmth[len(s.heats):]
	for i, t := range s.heats {
		out.ohm[i], out.tempC[i] = math.NaN(), math.NaN()
		if t == nil {
			continue
		}
		out.ohm[i] = t.ohm
		if t.wire != nil && t.known {
			out.tempC[i] = t.tempC
		}
	}
	if out.Err != nil {
		return
	}
	for _, i := range s.coils {
		if s.energised[i] {
			out.Pulled = append(out.Pulled, i)
		}
	}
	for i := range s.n.Branches {
		br := &s.n.Branches[i]
		e := s.elem[i]
		if br.Role != RoleElement || e == noElement || !out.Closed[i] {
			continue
		}
		switch br.Element.Type {
		case schematic.ElemAlternator, schematic.ElemRegulator:
			if s.sol.State[e] == dc.StateLimiting {
				out.Limiting = append(out.Limiting, i)
			}
		case schematic.ElemCurrent, schematic.ElemPower:
			if s.sol.State[e] == dc.StateStarved {
				out.Starved = append(out.Starved, i)
			}
			if v, ok := out.Across(i); ok && v < -wakeVolt && out.Amp[i] < -quiet {
				out.Reversed = append(out.Reversed, i)
			}
		case schematic.ElemContact, schematic.ElemOutput, schematic.ElemJoint:
			if limit, ok := br.Value("limit_amp").Get(); ok && math.Abs(out.Amp[i]) > limit {
				out.Over = append(out.Over, i)
			}
		}
	}
}

// MissingOf names what is missing with what it is missing of: "rating of F1",
// "power of the 56a filament in E1".
func (b *Branch) MissingOf() string {
	what := listOf(b.Missing)
	if !strings.Contains(what, " of ") {
		return what + " of " + b.Name()
	}
	where := b.Name()
	if b.Role == RoleElement && b.Pin == nil {
		where = b.Part.Name // the value says which element is meant
	}
	return what + " in " + where
}

// Names returns what messages call the given branches, as people count.
func (n *Netlist) Names(branches []int) []string {
	names := make([]string, 0, len(branches))
	for _, i := range branches {
		names = append(names, n.Branches[i].Name())
	}
	slices.SortFunc(names, schematic.CompareNames)
	return slices.Compact(names)
}

// InrushAmp returns what a lamp with a cold filament or a motor at a standstill
// would draw at the voltage between its ends in this operating state, in A. The
// wires let through less. It is false for other loads, where the part does not
// say enough, and where the load has no voltage.
func (s *Solution) InrushAmp(branch int) (float64, bool) {
	ohm, ok := s.Netlist.Branches[branch].startOhm().Get()
	volt, has := s.Across(branch)
	if !ok || !has || !s.Closed[branch] {
		return 0, false
	}
	return math.Abs(volt) / bounded(ohm), true
}
