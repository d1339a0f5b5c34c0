package netlist

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"loomwright/schematic"
)

// Strain is the most a wire can be asked to carry by any combination of
// switches and drivers.
type Strain struct {
	Wire  int              // branch
	Amp   float64          // the largest current found, A
	State *schematic.State // the combination that causes it; nil where nothing ever flows
	// Bound is what no combination exceeds, A: the sum of what every circuit
	// alone sends through the wire, see [Netlist.Worst].
	Bound float64
}

// boundGuard is what the bound adds for what does not simply add up, such as
// wires and filaments that change with temperature.
const boundGuard = 1.03

// Worst returns for every wire the largest current over the combinations of
// switch positions and drivers, engine off, cranking and running.
//
// Trying all of them takes 2ⁿ solutions for n switches. Instead the settings
// that each load needs are read off the drawing: the contacts and drivers on
// its way from a source and back, and for contacts of relays what their coils
// need in turn. Each such set is solved alone; what it adds to a wire's current
// is what its loads draw through the wire, and loads hardly know of each other,
// since they only share the drop of their feed. So the sets that add to a
// wire's current the same way are switched on together, those that exclude each
// other by size, and that combination is solved: its current is Amp, which
// certainly occurs. The sum of what the sets add alone, with some per cent on
// top, is Bound: loads alone have the higher voltage, so their sum is more than
// what they draw together. Constant powers draw more the lower their voltage:
// what they add counts as much larger as their voltage is lower with everything
// on that can be on together.
//
// Against all combinations of up to eight switches in random harnesses Bound
// was never exceeded and, for wires that carry an ampere or more, was at most
// a fifth above the largest current; Amp reached at least nineteen twentieths of it.
// Sneak paths that only open in some combination are not looked for; see
// [Sneaks].
func (n *Netlist) Worst() []Strain {
	w := worst{n: n, solver: NewSolver(n), sets: n.needsOfLoads()}
	var out []Strain
	for i := range n.Branches {
		if n.Branches[i].Role == RoleWire {
			out = append(out, Strain{Wire: i})
		}
	}
	for _, engine := range n.engines() {
		w.engine(engine, out)
	}
	return out
}

// engines lists the engine states that make a difference.
func (n *Netlist) engines() []schematic.Engine {
	out := []schematic.Engine{schematic.EngineOff}
	running, cranking := false, false
	for i := range n.Branches {
		br := &n.Branches[i]
		if br.Role != RoleElement {
			continue
		}
		running = running || br.Element.Type == schematic.ElemAlternator || slices.Contains(br.Element.When, schematic.EngineRunning)
		cranking = cranking || len(br.Element.When) > 0 && slices.Contains(br.Element.When, schematic.EngineCranking)
	}
	if running {
		out = append(out, schematic.EngineRunning)
	}
	if cranking {
		out = append(out, schematic.EngineCranking)
	}
	return out
}

// worst looks for the largest currents.
type worst struct {
	n      *Netlist
	solver *Solver
	sets   []need
	memo   map[string]*Solution
	flips  int
}

// engine does so in one engine state.
func (w *worst) engine(engine schematic.Engine, out []Strain) {
	w.memo, w.flips = map[string]*Solution{}, 0
	base := w.solve(engine, need{})
	if base.Err != nil {
		return
	}
	alone := make([]*Solution, len(w.sets))
	for k, set := range w.sets {
		alone[k] = w.solve(engine, set)
	}
	more := w.hungrier(engine, alone)
	for x := range out {
		i := out[x].Wire
		adds := w.adds(base, alone, i)
		for _, sign := range []float64{1, -1} {
			set, left, bound := w.together(adds, more, sign)
			bound = max(0, sign*base.Amp[i]) + bound
			s := w.solve(engine, set)
			if s.Err != nil {
				continue
			}
			out[x].take(math.Abs(s.Amp[i]), bound*boundGuard, s.State)
			for _, k := range left[:min(len(left), mostSwaps)] {
				other := maps.Clone(set)
				maps.Copy(other, w.sets[k])
				if t := w.solve(engine, other); t.Err == nil && sign*t.Amp[i] > sign*s.Amp[i] {
					set, s = other, t
					out[x].take(math.Abs(s.Amp[i]), 0, s.State)
				}
			}
			if sign*s.Amp[i] < settled*bound && w.flips < mostFlips {
				s = w.flip(engine, set, s, i, sign)
				out[x].take(math.Abs(s.Amp[i]), 0, s.State)
			}
		}
		for _, s := range alone { // what adds nothing may still carry most
			if s.Err == nil {
				out[x].take(math.Abs(s.Amp[i]), 0, s.State)
			}
		}
	}
}

// mostSwaps bounds the sets tried in place of those that exclude them.
const mostSwaps = 8

// Where a combination stays below the share settled of its bound, as for a wire
// between two grounds, single sets are switched on and off to better it, up to
// mostFlips times for each engine state.
const (
	settled   = 0.93
	mostFlips = 400
)

// flip switches sets on and off one at a time as long as that helps.
func (w *worst) flip(engine schematic.Engine, set need, best *Solution, i int, sign float64) *Solution {
	for better := true; better; {
		better = false
		for _, k := range w.sets {
			if w.flips++; w.flips > mostFlips {
				return best
			}
			other := maps.Clone(set)
			if k.within(set) {
				for key := range k {
					delete(other, key)
				}
			} else {
				maps.Copy(other, k)
			}
			if s := w.solve(engine, other); s.Err == nil && sign*s.Amp[i] > sign*best.Amp[i]*(1+1e-6) {
				best, set, better = s, other, true
			}
		}
	}
	return best
}

// take keeps the larger current and bound.
func (s *Strain) take(amp, bound float64, st *schematic.State) {
	if amp > s.Amp*(1+1e-9) && amp > quiet {
		s.Amp, s.State = amp, st
	}
	s.Bound = max(s.Bound, bound, s.Amp)
}

// hungrier returns by how much each set's current may be larger with everything
// on than alone: 1, and more for sets with constant powers, whose voltage falls.
func (w *worst) hungrier(engine schematic.Engine, alone []*Solution) []float64 {
	all := need{}
	for _, set := range w.sets {
		if all.agrees(set) {
			maps.Copy(all, set)
		}
	}
	on := w.solve(engine, all)
	more := make([]float64, len(w.sets))
	most := 1.0
	unseen := map[int]bool{} // sets whose constant powers are off with all that
	for k, s := range alone {
		more[k] = 1
		if s.Err != nil || on.Err != nil {
			continue
		}
		for i := range w.n.Branches {
			br := &w.n.Branches[i]
			if br.Role != RoleElement || br.Element.Type != schematic.ElemPower || s.Amp[i] < quiet {
				continue
			}
			now, _ := s.Across(i)
			low, ok := on.Across(i)
			if least := br.Value("min_volt").Or(wakeVolt); !ok || on.Amp[i] < quiet || low < least {
				unseen[k] = true
				continue
			}
			more[k] = max(more[k], now/low)
			most = max(most, more[k])
		}
	}
	for k := range unseen {
		more[k] = max(more[k], most)
	}
	return more
}

// adds returns what each set adds to a wire's current, beyond what smaller sets
// within it do.
func (w *worst) adds(base *Solution, alone []*Solution, i int) []float64 {
	adds := make([]float64, len(w.sets))
	whole := make([]float64, len(w.sets))
	for k, s := range alone {
		if s.Err == nil {
			whole[k] = s.Amp[i] - base.Amp[i]
		}
		adds[k] = whole[k]
		most := 0.0
		for j := range k { // smaller sets come first
			if len(w.sets[j]) < len(w.sets[k]) && w.sets[j].within(w.sets[k]) && math.Abs(whole[j]) > math.Abs(most) && whole[j]*whole[k] > 0 {
				most = whole[j]
			}
		}
		adds[k] -= most
	}
	return adds
}

// together joins the sets that add to a current of one sign, the largest first.
// It returns with it the sets that those taken exclude, and the sum of what all
// of them could add.
func (w *worst) together(adds, more []float64, sign float64) (all need, left []int, sum float64) {
	var order []int
	for k, a := range adds {
		if sign*a > quiet {
			order = append(order, k)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(sign*adds[b], sign*adds[a]) })
	all = need{}
	instead := map[int]float64{} // set taken → what those it excludes would add
	var taken []int
	for _, k := range order {
		if all.agrees(w.sets[k]) {
			maps.Copy(all, w.sets[k])
			taken = append(taken, k)
			sum += sign * adds[k] * more[k]
			continue
		}
		left = append(left, k)
		for _, j := range taken {
			if !w.sets[j].agrees(w.sets[k]) {
				instead[j] += sign * adds[k] * more[k]
				break
			}
		}
	}
	for _, j := range slices.Sorted(maps.Keys(instead)) {
		sum += max(0, instead[j]-sign*adds[j]*more[j])
	}
	return all, left, sum
}

// solve computes a combination once.
func (w *worst) solve(engine schematic.Engine, set need) *Solution {
	key := set.String()
	if s, ok := w.memo[key]; ok {
		return s
	}
	st := &schematic.State{Name: set.words(w.n, engine), Engine: engine}
	for _, k := range slices.SortedFunc(maps.Keys(set), setKey.compare) {
		st.Set = append(st.Set, schematic.Setting{Part: k.part, Item: k.item, Position: set[k]})
	}
	s := w.solver.Solve(st)
	w.memo[key] = s
	return s
}

// need is a set of switch positions and drivers that are on.
type need map[setKey]string

func (k setKey) compare(o setKey) int {
	return cmp.Or(strings.Compare(k.part.String(), o.part.String()), strings.Compare(k.item, o.item))
}

func (n need) String() string {
	var b strings.Builder
	for _, k := range slices.SortedFunc(maps.Keys(n), setKey.compare) {
		fmt.Fprint(&b, k.part, k.item, n[k], ";")
	}
	return b.String()
}

// words names a combination as people do.
func (n need) words(net *Netlist, engine schematic.Engine) string {
	var names []string
	for k, pos := range n {
		name := net.Doc.Part(k.part).Name
		if k.item != "" {
			name += "." + k.item
		}
		names = append(names, name+" "+pos)
	}
	slices.SortFunc(names, schematic.CompareNames)
	return strings.Join(append(names, "engine "+string(engine)), ", ")
}

func (n need) agrees(o need) bool {
	for k, v := range o {
		if have, ok := n[k]; ok && have != v {
			return false
		}
	}
	return true
}

func (n need) within(o need) bool {
	for k, v := range n {
		if o[k] != v {
			return false
		}
	}
	return true
}
