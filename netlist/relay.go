package netlist

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"loomwright/calc/unit"
)

// Default pull-in and drop-out of a relay coil as shares of the system
// voltage, used where a kind gives none: 8.4 V and 1.2 V of 12 V, the worst
// figures of several 12 V mini relay data sheets.
const (
	pullInShare  = 8.4 / 12
	dropOutShare = 1.2 / 12
)

// contact is a contact that a coil moves, both branches.
type contact struct{ branch, coil int }

// findContacts lists the contacts that coils move.
func (s *Solver) findContacts() {
	for i := range s.n.Branches {
		br := &s.n.Branches[i]
		if br.Role != RoleElement || br.Element.Coil == "" || s.elem[i] == noElement {
			continue
		}
		coil := -1
		for _, j := range s.n.parts[br.Part.ID] {
			if b := &s.n.Branches[j]; b.Role == RoleElement && b.Element.Name == br.Element.Coil && samePin(b, br) {
				coil = j
				break
			}
		}
		s.contacts = append(s.contacts, contact{i, coil})
	}
}

// samePin reports whether two elements of a part belong to the same own pin.
func samePin(a, b *Branch) bool {
	return (a.Pin == nil) == (b.Pin == nil) && (a.Pin == nil || a.Pin.Name == b.Pin.Name)
}

// move is one coil that pulls in or lets go.
type move struct {
	coil int
	on   bool
	volt float64 // that made it move, V
}

// moveRounds bounds the arrangements tried: enough for every coil to move
// several times one after the other.
func (s *Solver) moveRounds() int { return 16 + 4*len(s.coils) }

// settle solves until relays and regulators agree with the voltages they see.
// All coils move together at first. Should that lead round in a circle, they
// move one by one, the one with the most to spare first: if they settle so,
// two coils compete; if not, they chatter. Coils that chatter are then held
// where they were, for others may compete beside them. It always ends.
func (s *Solver) settle(out *Solution, closed []bool) {
	start := s.arrangement()
	s.stuck = nil
	for {
		loop := s.moveUntil(out, closed, false)
		if loop == nil {
			return
		}
		s.arrange(start)
		alone := s.moveUntil(out, closed, true)
		if out.Err != nil {
			return
		}
		if alone == nil {
			out.Racing = s.movers(loop)
			return
		}
		if s.stuck == nil {
			s.stuck = map[int]bool{}
		} else {
			out.ChatterLoop += ". Beside it "
		}
		out.ChatterLoop += s.tell(alone, closed)
		for _, m := range alone {
			s.stuck[m.coil] = true
		}
		out.Chattering = s.n.Names(slices.Collect(maps.Keys(s.stuck)))
		s.arrange(start)
	}
}

// moveUntil lets coils move until none wants to. It returns the moves of the
// circle they got into, nil when they settled or nothing can be computed.
func (s *Solver) moveUntil(out *Solution, closed []bool, oneByOne bool) []move {
	var moves []move
	seen := map[string]int{} // arrangement → moves made before
	for round := 0; ; round++ {
		s.moveContacts(closed)
		if !s.solveRegulators(out, closed) {
			return nil
		}
		arrangement := s.arrangement()
		if first, again := seen[arrangement]; again {
			return moves[first:]
		}
		if round == s.moveRounds() {
			return moves[len(moves)/2:]
		}
		seen[arrangement] = len(moves)
		next := s.wanted(closed)
		if len(next) == 0 {
			return nil
		}
		if oneByOne {
			next = next[:1]
		}
		for _, m := range next {
			s.energised[m.coil] = m.on
		}
		moves = append(moves, next...)
	}
}

// moveContacts puts every contact that a coil moves where the coil holds it.
func (s *Solver) moveContacts(closed []bool) {
	for _, c := range s.contacts {
		on := s.n.Branches[c.branch].Element.Break
		if c.coil >= 0 && s.energised[c.coil] {
			on = !on
		}
		s.toggle(c.branch, on)
		closed[c.branch] = on
	}
}

// wanted lists the coils that would move with the voltages found, the one
// furthest beyond its limit first.
func (s *Solver) wanted(closed []bool) []move {
	var out []move
	for k, i := range s.coils {
		if s.elem[i] == noElement || s.stuck[i] {
			continue
		}
		volt := s.coilVolt(i, closed)
		on := volt >= s.pullIn[k]
		if s.energised[i] {
			on = volt > s.dropOut[k]
		}
		if on != s.energised[i] {
			out = append(out, move{i, on, volt})
		}
	}
	if len(out) > 1 {
		slices.SortStableFunc(out, func(a, b move) int { return cmp.Compare(s.spare(b), s.spare(a)) })
	}
	return out
}

// spare is how far a coil is beyond the limit that makes it move, as a share.
func (s *Solver) spare(m move) float64 {
	k := slices.Index(s.coils, m.coil)
	if m.on {
		return m.volt / max(s.pullIn[k], 1e-3)
	}
	return 1 - m.volt/max(s.dropOut[k], 1e-3)
}

func (s *Solver) coilVolt(i int, closed []bool) float64 {
	br := &s.n.Branches[i]
	if !closed[i] || s.sol.Island[br.A] != s.sol.Island[br.B] {
		return 0
	}
	return math.Abs(s.sol.Volt[br.A] - s.sol.Volt[br.B])
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

func (s *Solver) arrange(arrangement string) {
	for i, c := range s.coils {
		s.energised[c] = arrangement[i] == '1'
	}
}

// movers names the coils that move within a circle.
func (s *Solver) movers(loop []move) []string {
	var coils []int
	for _, m := range loop {
		coils = append(coils, m.coil)
	}
	return s.n.Names(coils)
}

// tell puts a circle into words: which coil moves at what voltage, and which
// contact of its own or of others changes that voltage.
func (s *Solver) tell(loop []move, closed []bool) string {
	if len(loop) > longestTale {
		loop = loop[:longestTale]
	}
	through := s.through(loop, closed)
	var words []string
	for _, m := range loop {
		text := s.n.Branches[m.coil].Name() + " gets " + unit.Format(unit.Volt, m.volt, unit.SI)
		if m.on {
			text += " and pulls in"
		} else {
			text += " and lets go"
		}
		for _, c := range s.contacts {
			if c.coil != m.coil || !slices.Contains(through, c.branch) {
				continue
			}
			br := &s.n.Branches[c.branch]
			if m.on != br.Element.Break {
				text += ", " + br.Name() + " closes"
			} else {
				text += ", " + br.Name() + " opens"
			}
		}
		words = append(words, text)
	}
	return strings.Join(words, "; ") + "; and so on"
}

// longestTale is how many moves of a circle are told.
const longestTale = 8

// through lists the contacts by which the coils of a circle take or give each
// other their voltage: those that, moved alone, make one of the coils want to
// stand otherwise. All of theirs where none does alone.
func (s *Solver) through(loop []move, closed []bool) []int {
	var all, some []int
	held := map[int]bool{}
	for _, m := range loop {
		held[m.coil] = true
	}
	for _, c := range s.contacts {
		if held[c.coil] {
			all = append(all, c.branch)
		}
	}
	volts := func() (out []float64) {
		for _, i := range s.coils {
			if held[i] {
				out = append(out, s.coilVolt(i, closed))
			}
		}
		return out
	}
	was := s.sol.Clone()
	before := volts()
	for _, i := range all {
		s.toggle(i, !closed[i])
		if s.net.Solve(&s.sol) == nil {
			for k, v := range volts() {
				if math.Abs(v-before[k]) > 0.2*max(v, before[k]) {
					some = append(some, i)
					break
				}
			}
		}
		s.toggle(i, closed[i])
	}
	s.sol = *was
	if len(some) == 0 {
		return all
	}
	return some
}

// regulatorRounds bounds the search for the feed currents of regulators: each
// round shrinks the error by feed resistance × load, well below 1/10.
const regulatorRounds = 25

// solveRegulators solves the network and repeats until every regulator draws
// from its feed what it gives. It reports whether the solution can be used.
func (s *Solver) solveRegulators(out *Solution, closed []bool) bool {
	for _, i := range s.regulators {
		if !s.near {
			must(s.net.SetAmp(s.feed[i], 0))
		}
		if closed[i] {
			s.toggle(i, true)
		}
	}
	for round := 0; ; round++ {
		solve := s.net.Solve
		if s.near || round > 0 {
			solve = s.net.SolveNear
		}
		if err := solve(&s.sol); err != nil {
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
