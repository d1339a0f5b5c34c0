package dc

import (
	"errors"
	"fmt"
	"math"
)

// Device is the law of an element whose current is a curve over its voltage.
type Device interface {
	// Current returns the current from a to b, in A, at the voltage v = V(a)-V(b), in V, and its slope di/dv, in S.
	// The current must be continuous, and finite at any voltage. Where it never falls with the voltage a solution exists and is the only one.
	Current(v float64) (amp, siemens float64)
	// Check returns an error if a value of the law makes no sense.
	Check() error
}

// Starter is a Device that names the voltage its curve is first taken at; others start at 0 V.
type Starter interface {
	Device
	StartVolt() float64
}

// Demand is a Device whose current does not fall as its voltage does, or even rises, so that more than one operating
// point may exist. Solve first finds the voltages without any Demand and then switches them on, which leads to the
// point with the higher voltage, the one a network reaches when its loads are switched on.
type Demand interface {
	Device
	IsDemand()
}

// Reporter is a Device that tells which part of its curve it works in, at the voltage v. For a Demand, idle is the
// voltage it would have with all Demands switched off; for others it is v.
type Reporter interface {
	Device
	State(v, idle float64) State
}

// State is the part of its curve a device works in.
type State uint8

// The states of devices.
const (
	StateNormal     State = iota // as rated; also every element that is not a Reporter
	StateBlocking                // carries nothing but leakage
	StateLimiting                // gives its largest current
	StateStarved                 // below the voltage it needs, with current flowing: the supply is too weak or has collapsed
	StateUnpowered               // nothing but leakage reaches it
	StateConducting              // a diode in its forward direction
)

// String returns the name of the state.
func (s State) String() string {
	names := [...]string{"normal", "blocking", "limiting", "starved", "unpowered", "conducting"}
	if int(s) < len(names) {
		return names[s]
	}
	return fmt.Sprintf("State(%d)", uint8(s))
}

// LeakSiemens is the conductance in parallel to every device, 1 nS (1 GΩ). It gives a defined voltage to nodes that
// only blocked devices hold, and is part of the device's current: 12 nA at 12 V.
const LeakSiemens = 1e-9

func checkLaw(law Device) error {
	if law == nil {
		return errors.New("there is no law; give one")
	}
	return law.Check()
}

// device is the state of one device in the solver.
type device struct {
	e      Element
	law    Device
	start  float64 // V
	demand bool
	held   bool    // kept off for now
	idle   float64 // voltage with all Demands held, V
	known  bool    // a solve has settled it

	v, amp, siemens float64 // the point its curve was last taken at, and the curve there
	from            float64 // where SolveNear began, V
	room            float64 // what the last digits of its voltage make of its current, A
	to, linear      float64 // the voltage a step leads to, and the current by the tangent there
}

func newDevice(e Element, law Device) device {
	d := device{e: e, law: law}
	_, d.demand = law.(Demand)
	if s, ok := law.(Starter); ok {
		d.start = s.StartVolt()
	}
	return d
}

// current evaluates the law with its leakage.
func (d *device) current(v float64) (amp, siemens float64) {
	if d.held {
		return LeakSiemens * v, LeakSiemens
	}
	amp, siemens = d.law.Current(v)
	return amp + LeakSiemens*v, siemens + LeakSiemens
}

// take takes the curve at v. It returns false if the law gives no number.
func (d *device) take(v float64) bool {
	d.v = v
	d.amp, d.siemens = d.current(v)
	return finite(d.amp) && finite(d.siemens)
}

func finite(x float64) bool { return !math.IsNaN(x - x) }

// state returns the part of the curve the device works in at v.
func (d *device) state(v float64) State {
	r, ok := d.law.(Reporter)
	switch {
	case !ok:
		return StateNormal
	case d.demand:
		return r.State(v, d.idle)
	}
	return r.State(v, v)
}
