package netlist

import (
	"fmt"
	"math"
	"strings"
)

// Default pull-in and drop-out of a relay coil as shares of the system
// voltage, used where a kind gives none: 8.4 V and 1.2 V of 12 V, the worst
// figures of several 12 V mini relay data sheets.
const (
	pullInShare  = 8.4 / 12
	dropOutShare = 1.2 / 12
)

// settle solves until relays and regulators agree with the voltages they see.
// It always ends: a relay arrangement seen before is chattering, not solved on.
func (s *Solver) settle(out *Solution, closed []bool) {
	var order []string // arrangements in the order they came up
	seen := map[string]int{}
	for {
		s.moveContacts(closed)
		if !s.solveRegulators(out, closed) {
			return
		}
		arrangement := s.arrangement()
		if first, again := seen[arrangement]; again {
			out.Chattering = s.movers(order[first:])
			return
		}
		seen[arrangement] = len(order)
		order = append(order, arrangement)
		if !s.moveCoils(closed) {
			return
		}
	}
}

// moveContacts puts every contact that a coil moves where the coil holds it.
func (s *Solver) moveContacts(closed []bool) {
	for i := range s.n.Branches {
		br := &s.n.Branches[i]
		if br.Role != RoleElement || br.Element.Coil == "" || s.elem[i] == noElement {
			continue
		}
		on := br.Element.Break
		if c := s.coilOf(br); c >= 0 && s.energised[c] {
			on = !on
		}
		s.toggle(i, on)
		closed[i] = on
	}
}

// coilOf returns the branch of the coil that moves a contact, or -1.
func (s *Solver) coilOf(br *Branch) int {
	for _, j := range s.n.parts[br.Part.ID] {
		if s.n.Branches[j].Role == RoleElement && s.n.Branches[j].Element.Name == br.Element.Coil {
			return j
		}
	}
	return -1
}

// moveCoils pulls in and drops out by the voltages found; it reports whether
// any coil moved.
func (s *Solver) moveCoils(closed []bool) bool {
	moved := false
	for _, i := range s.coils {
		br := &s.n.Branches[i]
		if s.elem[i] == noElement {
			continue
		}
		volt := 0.0
		if closed[i] {
			volt = math.Abs(s.sol.Volt[br.A] - s.sol.Volt[br.B])
			if s.sol.Island[br.A] != s.sol.Island[br.B] {
				volt = 0
			}
		}
		system := s.n.Doc.Info().Volts()
		on := volt >= br.Value("pull_in_volt").Or(pullInShare*system)
		if s.energised[i] {
			on = volt > br.Value("drop_out_volt").Or(dropOutShare*system)
		}
		if on != s.energised[i] {
			s.energised[i], moved = on, true
		}
	}
	return moved
}

func (s *Solver) arrangement() string {
	b := make([]byte, len(s.coils))
	for i, c := range s.coils {
		b[i] = '0'
		if s.energised[c] {
			b[i] = '1'
		}
	}
	return string(b)
}

// movers names the coils that differ within a loop of arrangements.
func (s *Solver) movers(loop []string) []string {
	var names []string
	for i, c := range s.coils {
		for _, a := range loop {
			if a[i] != loop[0][i] {
				names = append(names, s.n.Branches[c].Name())
				break
			}
		}
	}
	return names
}

// regulatorRounds bounds the search for the feed currents of regulators: each
// round shrinks the error by feed resistance × load, well below 1/10.
const regulatorRounds = 25

// solveRegulators solves the network and repeats until every regulator draws
// from its feed what it gives. It reports whether the solution can be used.
func (s *Solver) solveRegulators(out *Solution, closed []bool) bool {
	for _, i := range s.regulators {
		must(s.net.SetAmp(s.feed[i], 0))
		if closed[i] {
			s.toggle(i, true)
		}
	}
	for round := 0; ; round++ {
		if err := s.net.Solve(&s.sol); err != nil {
			out.Err = s.explain(err)
			return false
		}
		again := false
		for _, i := range s.regulators {
			again = s.followFeed(i, closed) || again
		}
		if !again {
			return true
		}
		if round == regulatorRounds {
			out.Err = fmt.Errorf("the supply of a regulator does not settle: check what feeds %s", strings.Join(s.n.Names(s.regulators), ", "))
			return false
		}
	}
}

// followFeed sets what a regulator draws to what it gives; it reports whether
// that changed the network.
func (s *Solver) followFeed(i int, closed []bool) bool {
	br := &s.n.Branches[i]
	volt := s.sol.Volt[br.Feed] - s.sol.Volt[br.B]
	if s.sol.Island[br.Feed] != s.sol.Island[br.B] {
		volt = 0
	}
	want := br.Value("min_volt").Or(br.Value("volt").Or(0))
	if volt < want || !closed[i] {
		if s.net.IsOpen(s.elem[i]) {
			return false
		}
		must(s.net.Open(s.elem[i]))
		must(s.net.SetAmp(s.feed[i], 0))
		return true
	}
	gives := max(-s.sol.Amp[s.elem[i]], 0)
	draws := s.sol.Amp[s.feed[i]]
	if math.Abs(gives-draws) <= 1e-9*(1+gives) {
		return false
	}
	must(s.net.SetAmp(s.feed[i], gives))
	return true
}
