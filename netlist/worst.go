package netlist

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"loomwright/schematic"
)

// Strain is the most a wire can be asked to carry by any combination of
// switches and drivers.
type Strain struct {
	Wire  int              // branch
	Amp   float64          // the largest current found, A
	State *schematic.State // the combination that causes it; nil where nothing ever flows
	// Bound is above what any combination causes, A. [Netlist.Worst] says what
	// holds it up.
	Bound float64
	// Sure tells that Bound follows from what can draw through the wire at all;
	// else it is an estimate, lower than that.
	Sure bool
}

// WorstCase is what [Netlist.Worst] finds.
type WorstCase struct {
	Wires []Strain // in the order of the branches
	// Missed lists loads, as branches, of which not all ways to switch them on
	// were looked at, or none was found though there is one.
	Missed []int
	// Failed counts combinations that cannot be computed; Err says why the
	// first of them.
	Failed int
	Err    error
}

// boundGuard is what the bound adds for what does not simply add up, such as
// wires that share a current and change with temperature.
const boundGuard = 1.03

// wider is how much wider the bound may be that follows from what can draw at
// all before the estimate stands in its place.
const wider = 1.05

// Worst returns for every wire the largest current over the combinations of
// switch positions and drivers, engine off, cranking and running. What starts
// (cold filaments, motors at a standstill) and faults are not in it.
//
// Trying all combinations takes 2ⁿ solutions for n switches. Instead the
// settings that each load needs are read off the drawing: the contacts and
// drivers on its way from a source and back, and for contacts of relays what
// their coils need in turn. Each such set is solved alone; what it adds to a
// wire's current is what its loads draw through the wire. The sets that add to
// a wire's current the same way are switched on together, the larger first
// where two exclude each other, and that combination is solved: its current is
// Amp, which certainly occurs. Two sums bound it, each with 3 % on top; Bound
// is the first of them unless the second is clearly smaller.
//
// # What holds the bound up
//
// The first sum is what can draw through the wire. The currents of a network
// are lines that leave a source, pass at least one load and come back. So a
// wire carries no more than what all loads draw to which a way leads on from
// its end, or from which a way comes to its beginning, through wires and
// contacts in whatever position and diodes in their direction. Each load counts
// with the most it draws in any of the sets alone: a load that draws no more at
// less voltage (resistance, filament, motor, coil, constant current) draws most
// alone, as every other load takes volts away on the feed and the return they
// share, and warms their wires. Constant powers draw more at less voltage; they
// count as much larger as their voltage is lower with everything on that can be
// on together. Where this sum stands the answer is Sure. What it takes: that no
// load lifts the voltage of another, which an alternator that comes to its
// limit and a ground shared with it may do by little; hence the 3 %.
//
// It is wide where a load could draw by several wires, such as two ways to
// ground, for each then counts in full. The second sum is what the sets alone
// add to the current of this very wire. That is exact where currents simply add
// up, but the shares of wires side by side depend on the other contacts, on
// temperatures and on an alternator at its limit, so that it is an estimate:
// against all combinations of up to eight switches in random harnesses with
// such rings it was never exceeded with the 3 % and, for wires that carry an
// ampere or more, was at most a fifth above the largest current; Amp reached at
// least nineteen twentieths of it.
//
// Not looked for: ways that open only by way of other loads (see [Sneaks]),
// more than four ways to switch one load on, and more than six contacts in a
// row; loads concerned are in Missed. Loads without data draw nothing.
func (n *Netlist) Worst() WorstCase {
	out, _ := n.WorstWhile(func(float64) bool { return true })
	return out
}

// WorstWhile is Worst for as long as going says so; going is told the share
// done, 0 to 1. ok is false when it was stopped.
func (n *Netlist) WorstWhile(going func(share float64) bool) (out WorstCase, ok bool) {
	sets, missed := n.needsOfLoads()
	w := worst{n: n, solver: NewSolver(n), sets: sets, throughput: newThroughput(n), going: going, out: WorstCase{Missed: missed}}
	for i := range n.Branches {
		if n.Branches[i].Role == RoleWire {
			w.out.Wires = append(w.out.Wires, Strain{Wire: i, Sure: true})
		}
	}
	engines := n.engines()
	w.steps = len(engines) * (len(w.sets) + len(w.out.Wires))
	for _, engine := range engines {
		if !w.engine(engine) {
			return w.out, false
		}
	}
	for x := range w.out.Wires {
		w.out.Wires[x].Sure = w.out.Wires[x].Sure && w.out.Failed == 0
	}
	return w.out, true
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
	n          *Netlist
	solver     *Solver
	sets       []need
	throughput *throughput
	memo       map[string]*Solution
	flips      int
	out        WorstCase

	going       func(share float64) bool
	step, steps int
}

// on reports whether to go on after another step.
func (w *worst) on() bool {
	w.step++
	return w.going(float64(w.step) / float64(w.steps))
}

// engine looks in one engine state; false when it was stopped.
func (w *worst) engine(engine schematic.Engine) bool {
	w.memo, w.flips = map[string]*Solution{}, 0
	base := w.solve(engine, need{})
	if base.Err != nil {
		w.step += len(w.sets) + len(w.out.Wires)
		return true
	}
	alone := make([]*Solution, len(w.sets))
	for k, set := range w.sets {
		if alone[k] = w.solve(engine, set); !w.on() {
			return false
		}
	}
	more := w.hungrier(engine, alone)
	w.throughput.take(append([]*Solution{base}, alone...), func(sol, branch int) float64 {
		if sol > 0 && w.n.Branches[branch].isPower() {
			return more[sol-1]
		}
		return 1
	})
	for x := range w.out.Wires {
		if !w.on() {
			return false
		}
		w.wire(&w.out.Wires[x], engine, base, alone, more)
	}
	return true
}

// wire looks for the highest current of a wire, either way.
func (w *worst) wire(out *Strain, engine schematic.Engine, base *Solution, alone []*Solution, more []float64) {
	i := out.Wire
	adds := w.adds(base, alone, i)
	for _, sign := range []float64{1, -1} {
		set, left, bound := w.together(adds, more, sign)
		bound = max(0, sign*base.Amp[i]) + bound
		sure := false
		if most := w.throughput.through(i, sign > 0); most <= bound*wider {
			bound, sure = most, true
		}
		s := w.solve(engine, set)
		if s.Err != nil {
			continue
		}
		out.Sure = out.Sure && (sure || bound*boundGuard < out.Bound)
		out.take(math.Abs(s.Amp[i]), bound*boundGuard, s.State)
		for _, k := range left[:min(len(left), mostSwaps)] {
			other := maps.Clone(set)
			maps.Copy(other, w.sets[k])
			if t := w.solve(engine, other); t.Err == nil && sign*t.Amp[i] > sign*s.Amp[i] {
				set, s = other, t
				out.take(math.Abs(s.Amp[i]), 0, s.State)
			}
		}
		if sign*s.Amp[i] < settled*bound && w.flips < mostFlips {
			s = w.flip(engine, set, s, i, sign)
			out.take(math.Abs(s.Amp[i]), 0, s.State)
		}
	}
	for _, s := range alone { // what adds nothing may still carry most
		if s.Err == nil {
			out.take(math.Abs(s.Amp[i]), 0, s.State)
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
			if !br.isPower() || s.Amp[i] < quiet {
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
	if s.Err != nil {
		if w.out.Failed++; w.out.Err == nil {
			w.out.Err = fmt.Errorf("with %s: %w", st.Name, s.Err)
		}
	}
	w.memo[key] = s
	return s
}
