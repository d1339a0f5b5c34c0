package netlist

import (
	"fmt"
	"math"

	"loomwright/netlist/dc"
	"loomwright/schematic"
)

// The least resistance anything real has: a plugged contact or a bolted stud
// is never better than this. Ω.
const leastOhm = 1e-6

// Stand-ins for values nobody gave. They only keep the network solvable; every
// branch that uses one says so in Missing.
const (
	assumedOhm     = 1e-3 // wires and contacts, Ω
	assumedLimit   = 1e4  // sources without a current limit, A
	diodeOhm       = 0.05 // dynamic resistance of a small power diode, Ω (from memory)
	diodeKnee      = 0.03 // V, sharpness of the corner (from memory)
	lampExponent   = 0.5  // R ∝ V^0.45…0.58 for tungsten lamps (from memory)
	lampColdFactor = 0.1  // cold resistance ≈ 10 % of hot (lamp driver papers)
	wakeVolt       = 1    // constant loads draw nothing below, V
)

// Solver answers operating states of one netlist. It reuses the factorisation
// from state to state and belongs to one goroutine.
type Solver struct {
	n    *Netlist
	net  *dc.Network
	elem []dc.Element // by branch; noElement where the branch is not in the network
	feed []dc.Element // regulators: the current drawn from the feed, by branch
	sol  dc.Solution

	coils      []int        // branches
	regulators []int        // branches
	energised  map[int]bool // by coil branch
}

const noElement = dc.Element(-1)

// NewSolver prepares the network of a netlist.
func NewSolver(n *Netlist) *Solver {
	s := &Solver{n: n, net: dc.New(len(n.Nodes)), elem: make([]dc.Element, len(n.Branches)), feed: make([]dc.Element, len(n.Branches))}
	if n.Reference >= 0 {
		must(s.net.SetReference(dc.Node(n.Reference)))
	}
	for i := range n.Branches {
		s.elem[i], s.feed[i] = noElement, noElement
		s.addBranch(i)
	}
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
		resistor(br.ohmOr(assumedOhm))
		return
	}
	switch br.Element.Type {
	case schematic.ElemFuse:
		resistor(br.fuseOhm())
	case schematic.ElemJoint, schematic.ElemContact, schematic.ElemOutput:
		resistor(br.ohmOr(assumedOhm))
	case schematic.ElemCoil:
		s.coils = append(s.coils, i)
		fallthrough
	case schematic.ElemResistor:
		if len(br.Missing) == 0 {
			resistor(br.Ohm)
		}
	case schematic.ElemMotor, schematic.ElemCurrent, schematic.ElemPower, schematic.ElemLamp, schematic.ElemAlternator, schematic.ElemDiode:
		device(br.law(1))
	case schematic.ElemBattery:
		if len(br.Missing) == 0 {
			e, err := s.net.VoltageSource(a, b, br.Value("volt").Or(0), bounded(br.Value("ohm").Or(0)))
			must(err)
			s.elem[i] = e
		}
	case schematic.ElemRegulator:
		if law := br.law(1); law != nil && br.Feed >= 0 && br.Feed != br.B {
			device(law)
			e, err := s.net.CurrentSource(dc.Node(br.Feed), b, 0)
			must(err)
			s.feed[i] = e
			s.regulators = append(s.regulators, i)
		}
	}
}

func (b *Branch) ohmOr(def float64) float64 {
	if b.OhmKnown {
		return b.Ohm
	}
	return def
}

func bounded(ohm float64) float64 { return min(max(ohm, leastOhm), 1e9) }

// isDevice reports whether the branch follows a curve of its own.
func (b *Branch) isDevice() bool {
	switch b.Element.Type {
	case schematic.ElemMotor, schematic.ElemCurrent, schematic.ElemPower, schematic.ElemLamp,
		schematic.ElemAlternator, schematic.ElemDiode, schematic.ElemRegulator:
		return b.Role == RoleElement
	}
	return false
}

// law returns the current law of a branch that draws for the share duty of the
// time, or nil when a value it needs is missing or makes no sense.
func (b *Branch) law(duty float64) dc.Device {
	if len(b.Missing) > 0 || duty <= 0 {
		return nil
	}
	v := func(arg string, def float64) float64 { return b.Value(arg).Or(def) }
	var law dc.Device
	switch b.Element.Type {
	case schematic.ElemMotor:
		amp := v("amp", 0)
		if amp <= 0 {
			return nil
		}
		// A running motor taken as the resistance it presents at its rating.
		ohm := bounded(v("volt", 0) / amp / duty)
		law = dc.Filament{NominalVolt: max(v("volt", 0), wakeVolt), NominalOhm: ohm, ColdOhm: ohm}
	case schematic.ElemCurrent:
		law = dc.ConstantCurrent{Amp: v("amp", 0) * duty, KneeVolt: max(v("min_volt", wakeVolt), 0.1)}
	case schematic.ElemPower:
		law = dc.ConstantPower{Watt: v("watt", 0) * duty, MinVolt: max(v("min_volt", wakeVolt), 0.1)}
	case schematic.ElemLamp:
		volt, watt := v("volt", 0), v("watt", 0)
		if volt <= 0 || watt <= 0 {
			return nil
		}
		ohm := bounded(volt * volt / watt / duty)
		law = dc.Filament{NominalVolt: volt, NominalOhm: ohm, ColdOhm: bounded(ohm * lampColdFactor), Exponent: lampExponent}
	case schematic.ElemAlternator, schematic.ElemRegulator:
		law = dc.LimitedSource{Volt: v("volt", 0), Ohm: bounded(v("ohm", 0)), LimitAmp: v("limit_amp", assumedLimit)}
	case schematic.ElemDiode:
		law = dc.Diode{ForwardVolt: v("volt", 0), OnOhm: bounded(v("ohm", diodeOhm)), KneeVolt: diodeKnee}
	default:
		return nil
	}
	if law.Check() != nil {
		return nil // a senseless value such as a negative limit
	}
	return law
}

// Solve computes one operating state. A nil state means everything at rest and
// the engine off. The result is always there; Err says why not to trust it.
func (s *Solver) Solve(st *schematic.State) *Solution {
	if st == nil {
		st = &schematic.State{Name: "at rest"}
	}
	out := &Solution{Netlist: s.n, State: st}
	set := settingsOf(s.n.Doc, st)
	out.Notes = set.notes
	s.energised = make(map[int]bool, len(s.coils))
	closed := make([]bool, len(s.n.Branches))
	for i := range s.n.Branches {
		closed[i] = s.apply(i, st, set)
	}
	s.settle(out, closed)
	s.fill(out, closed)
	return out
}

// apply puts a branch into the position the state asks for and reports whether
// it can conduct. Contacts moved by a coil come later.
func (s *Solver) apply(i int, st *schematic.State, set *settings) bool {
	br := &s.n.Branches[i]
	if s.elem[i] == noElement {
		return false
	}
	on := true
	if br.Role == RoleElement {
		on = br.active(st.Engine) && set.position(br)
		if duty := set.duty(br); on && duty != 1 {
			on = s.setDuty(i, duty)
		} else if on {
			on = s.setDuty(i, 1)
		}
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

// SetOhm gives a wire, contact or other plain resistance another value for the
// following Solve, in Ω: what would a thicker wire do? Other branches keep
// theirs.
func (s *Solver) SetOhm(branch int, ohm float64) {
	if e := s.elem[branch]; e != noElement && !s.n.Branches[branch].isDevice() && !s.n.Branches[branch].IsSource() {
		must(s.net.SetOhm(e, bounded(ohm)))
	}
}

// setDuty makes a load draw for a share of the time and reports whether it
// draws at all.
func (s *Solver) setDuty(i int, duty float64) bool {
	br := &s.n.Branches[i]
	if duty <= 0 {
		return false
	}
	switch br.Element.Type {
	case schematic.ElemResistor, schematic.ElemCoil:
		must(s.net.SetOhm(s.elem[i], bounded(br.Ohm/duty)))
	case schematic.ElemMotor, schematic.ElemCurrent, schematic.ElemPower, schematic.ElemLamp:
		law := br.law(duty)
		if law == nil {
			return false
		}
		must(s.net.SetDevice(s.elem[i], law))
	}
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
	for _, e := range b.Element.When {
		if e == engine {
			return true
		}
	}
	return false
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
	out.ResidualAmp = s.sol.ResidualAmp
	out.GeneratedWatt, out.DissipatedWatt, out.ImbalanceWatt = s.sol.GeneratedWatt, s.sol.DissipatedWatt, s.sol.ImbalanceWatt
}
