package netlist

import (
	"fmt"
	"math"
	"slices"

	"loomwright/netlist/dc"
	"loomwright/schematic"
)

// The least resistance anything real has: a plugged contact or a bolted stud
// is never better than this. Ω.
const leastOhm = 1e-6

// Stand-ins for values nobody gave. They only keep the network solvable; every
// branch that uses one says so in Missing.
const (
	assumedOhm   = 1e-3 // wires and contacts, Ω
	assumedLimit = 1e4  // sources without a current limit, A
	wakeVolt     = 1    // constant loads draw nothing below, V
)

// Solver answers operating states of one netlist. It reuses the factorisation
// from state to state and belongs to one goroutine.
type Solver struct {
	n    *Netlist
	net  *dc.Network
	elem []dc.Element // by branch; noElement where the branch is not in the network
	feed []dc.Element // regulators: the current drawn from the feed, by branch
	sol  dc.Solution

	points  []point      // by branch: what its element is set up for
	cut     map[int]bool // branches taken out
	last    *schematic.State
	asked   []bool  // by branch: whether it can conduct as the last state asks, coils and regulators apart
	near    bool    // the network differs little from the one solved last
	heats   []*heat // by branch; nil where the current changes nothing
	heating map[wireSort]schematic.Num
	ambient bool // wires keep the temperature of the air

	coils      []int     // branches
	contacts   []contact // that coils move
	pullIn     []float64 // by coil, V
	dropOut    []float64
	regulators []int        // branches
	energised  map[int]bool // by coil branch
	stuck      map[int]bool // coil branches that chatter, held where they were
}

const noElement = dc.Element(-1)

// NewSolver prepares the network of a netlist.
func NewSolver(n *Netlist) *Solver {
	s := &Solver{n: n, net: dc.New(len(n.Nodes)), elem: make([]dc.Element, len(n.Branches)), feed: make([]dc.Element, len(n.Branches)),
		points: make([]point, len(n.Branches)), heats: make([]*heat, len(n.Branches)),
		heating: map[wireSort]schematic.Num{}, ambient: n.Doc.Info().Choices[WarmingChoice] == WarmingOff}
	if n.Reference >= 0 {
		must(s.net.SetReference(dc.Node(n.Reference)))
	}
	for i := range n.Branches {
		s.elem[i], s.feed[i], s.points[i] = noElement, noElement, rated
		s.addBranch(i)
		s.addHeat(i)
	}
	s.findContacts()
	return s
}

// must turns an error of the network's own bookkeeping into a panic: nodes and
// handles come from this package, values are bounded before they get here.
func must(err error) {
	if err != nil {
		panic(fmt.Sprintf("netlist: %v", err))
	}
}

func (s *Solver) addBranch(i int) {
	br := &s.n.Branches[i]
	a, b := dc.Node(br.A), dc.Node(br.B)
	if a == b {
		return
	}
	resistor := func(ohm float64) {
		e, err := s.net.Resistor(a, b, bounded(ohm))
		must(err)
		s.elem[i] = e
	}
	device := func(law dc.Device) {
		if law == nil {
			return
		}
		e, err := s.net.Device(a, b, law)
		must(err)
		s.elem[i] = e
	}
	if br.Role != RoleElement {
		resistor(br.plainOhm())
		return
	}
	switch br.Element.Type {
	case schematic.ElemFuse, schematic.ElemJoint, schematic.ElemContact, schematic.ElemOutput:
		resistor(br.plainOhm())
	case schematic.ElemCoil:
		s.coils = append(s.coils, i)
		on, off := br.coilVolts(s.n.Doc.Info().Volts())
		s.pullIn, s.dropOut = append(s.pullIn, on), append(s.dropOut, off)
		fallthrough
	case schematic.ElemResistor:
		if len(br.Missing) == 0 {
			resistor(br.plainOhm())
		}
	case schematic.ElemMotor, schematic.ElemCurrent, schematic.ElemPower, schematic.ElemLamp, schematic.ElemAlternator, schematic.ElemDiode:
		device(br.law(rated))
	case schematic.ElemBattery:
		if len(br.Missing) == 0 {
			cells := br.Cells()
			e, err := s.net.VoltageSource(a, b, cells.Volt, bounded(cells.Ohm))
			must(err)
			s.elem[i] = e
		}
	case schematic.ElemRegulator:
		if law := br.law(rated); law != nil && br.Feed >= 0 && br.Feed != br.B {
			device(law)
			e, err := s.net.CurrentSource(dc.Node(br.Feed), b, 0)
			must(err)
			s.feed[i] = e
			s.regulators = append(s.regulators, i)
		}
	}
}

// plainOhm is the resistance a branch that is a plain resistance begins with.
func (b *Branch) plainOhm() float64 {
	if b.Role == RoleElement {
		switch b.Element.Type {
		case schematic.ElemFuse:
			return b.fuse().ohm(0)
		case schematic.ElemCoil, schematic.ElemResistor:
			return b.Ohm
		}
	}
	return b.ohmOr(assumedOhm)
}

// coilVolts returns the voltages a coil pulls in and lets go at.
func (b *Branch) coilVolts(system float64) (pullIn, dropOut float64) {
	return b.Value("pull_in_volt").Or(pullInShare * system), b.Value("drop_out_volt").Or(dropOutShare * system)
}

func (b *Branch) ohmOr(def float64) float64 {
	if b.OhmKnown {
		return b.Ohm
	}
	return def
}

func bounded(ohm float64) float64 { return min(max(ohm, leastOhm), 1e9) }

// Solve computes one operating state, entered with all relays at rest. A nil
// state means everything at rest and the engine off. The result is always
// there; Err says why not to trust it.
func (s *Solver) Solve(st *schematic.State) *Solution { return s.SolveAfter(st, nil) }

// SolveAfter computes one operating state, entered with the relays as another
// solution of the same netlist left them; nil is all at rest.
func (s *Solver) SolveAfter(st *schematic.State, before *Solution) *Solution {
	if st == nil {
		st = &schematic.State{Name: "at rest"}
	}
	out := &Solution{Netlist: s.n, State: st}
	set := settingsOf(s.n.Doc, st)
	out.Notes = set.notes
	s.energised = make(map[int]bool, len(s.coils))
	if before != nil {
		for _, i := range before.Pulled {
			s.energised[i] = true
		}
	}
	closed := s.ask(st, set)
	s.chill()
	s.finish(out, closed)
	return out
}

// ask puts all branches into the positions a state asks for and returns which
// can conduct.
func (s *Solver) ask(st *schematic.State, set *settings) []bool {
	s.last, s.asked = st, make([]bool, len(s.n.Branches))
	for i := range s.n.Branches {
		s.asked[i] = s.apply(i, st, set)
	}
	return slices.Clone(s.asked)
}

// apply puts a branch into the position the state asks for and reports whether
// it can conduct. Contacts moved by a coil come later.
func (s *Solver) apply(i int, st *schematic.State, set *settings) bool {
	br := &s.n.Branches[i]
	if s.elem[i] == noElement {
		return false
	}
	on := !s.cut[i]
	if br.Role == RoleElement {
		on = on && br.active(st.Engine) && set.position(br)
		on = on && s.setPoint(i, point{set.duty(br), st.Engine})
	}
	s.toggle(i, on)
	return on
}

func (s *Solver) toggle(i int, on bool) {
	if on {
		must(s.net.Close(s.elem[i]))
	} else {
		must(s.net.Open(s.elem[i]))
	}
}

// finish solves what is set up.
func (s *Solver) finish(out *Solution, closed []bool) {
	s.settle(out, closed)
	if out.Err == nil && len(out.Chattering) == 0 {
		s.near = true
		s.warm(out, closed)
	}
	s.near = false
	s.fill(out, closed)
}

// SolveNear computes the operating state of another solution of the same
// netlist with what was set since by SetOhm, SetWire and SetCut: relays and
// temperatures begin as that solution has them. That takes a fraction of the
// time, and agrees with Solve within the tolerance of the temperatures.
func (s *Solver) SolveNear(base *Solution) *Solution {
	st := base.State
	out := &Solution{Netlist: s.n, State: st, Notes: base.Notes}
	s.energised = make(map[int]bool, len(s.coils))
	for _, i := range base.Pulled {
		s.energised[i] = true
	}
	s.near = st == s.last
	closed := slices.Clone(s.asked)
	if st != s.last {
		closed = s.ask(st, settingsOf(s.n.Doc, st))
	}
	s.warmAs(base)
	s.finish(out, closed)
	return out
}

// SetCut takes a branch out for the following Solve, a wire that broke or a fuse
// that blew, or puts it back. Contacts that a coil moves stay in.
func (s *Solver) SetCut(branch int, is bool) {
	if s.cut == nil {
		s.cut = map[int]bool{}
	}
	s.cut[branch], s.last = is, nil
}

// SetWire puts another wire in a wire's place for the following Solve: what
// would a thicker one do? It reports whether the resistance of w is known.
func (s *Solver) SetWire(branch int, w *schematic.Wire) bool {
	if s.n.Branches[branch].Role != RoleWire || s.elem[branch] == noElement {
		return false
	}
	c := ConductorOf(s.n.Doc, w)
	if len(c.Missing) > 0 {
		return false
	}
	must(s.net.SetOhm(s.elem[branch], bounded(c.Ohm)))
	s.addWireHeat(branch, w, c)
	return true
}

// SetOhm gives a wire, contact or other plain resistance another value for the
// following Solve, in Ω, whatever its temperature. Other branches keep theirs.
func (s *Solver) SetOhm(branch int, ohm float64) {
	s.heats[branch] = nil
	if e := s.elem[branch]; e != noElement && !s.n.Branches[branch].isDevice() && !s.n.Branches[branch].IsSource() {
		must(s.net.SetOhm(e, bounded(ohm)))
	}
}

// setPoint sets an element up for the duty and the engine of an operating state;
// it reports whether the element draws at all.
func (s *Solver) setPoint(i int, p point) bool {
	br := &s.n.Branches[i]
	if p.duty <= 0 {
		return false
	}
	if p == s.points[i] {
		return true
	}
	switch br.Element.Type {
	case schematic.ElemResistor, schematic.ElemCoil:
		must(s.net.SetOhm(s.elem[i], bounded(br.Ohm/p.duty)))
	case schematic.ElemMotor, schematic.ElemCurrent, schematic.ElemPower, schematic.ElemLamp, schematic.ElemAlternator:
		law := br.law(p)
		if law == nil {
			return false
		}
		must(s.net.SetDevice(s.elem[i], law))
	}
	s.points[i] = p
	return true
}

// active reports whether the engine state lets the element work.
func (b *Branch) active(engine schematic.Engine) bool {
	if engine == "" {
		engine = schematic.EngineOff
	}
	if len(b.Element.When) == 0 {
		return b.Element.Type != schematic.ElemAlternator || engine == schematic.EngineIdle || engine == schematic.EngineRunning
	}
	return slices.Contains(b.Element.When, engine)
}

// fill copies the network's answer into the solution.
func (s *Solver) fill(out *Solution, closed []bool) {
	n := s.n
	out.Volt = make([]float64, len(n.Nodes))
	out.Amp = make([]float64, len(n.Branches))
	out.Closed = closed
	for i := range n.Nodes {
		out.Volt[i] = math.NaN()
		if n.Reference >= 0 && len(s.sol.Volt) > i && !s.sol.Floating(dc.Node(i)) {
			out.Volt[i] = s.sol.Volt[i]
		}
	}
	for i := range n.Branches {
		if e := s.elem[i]; e != noElement && int(e) < len(s.sol.Amp) {
			out.Amp[i] = s.sol.Amp[e]
		}
		if f := s.feed[i]; f != noElement && int(f) < len(s.sol.Amp) {
			if out.FeedAmp == nil {
				out.FeedAmp = map[int]float64{}
			}
			out.FeedAmp[i] = s.sol.Amp[f]
			closed[i] = closed[i] && !s.net.IsOpen(s.elem[i]) // a regulator whose supply is too low gives nothing
		}
	}
	s.report(out)
	out.ResidualAmp = s.sol.ResidualAmp
	out.GeneratedWatt, out.DissipatedWatt, out.ImbalanceWatt = s.sol.GeneratedWatt, s.sol.DissipatedWatt, s.sol.ImbalanceWatt
}
