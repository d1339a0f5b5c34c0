package dc

import (
	"fmt"
	"math"
)

// MaxIterations bounds the linear solutions one Solve makes for its devices.
const MaxIterations = 200

// deviceTolerance is how far, as a share of its current, a device may stand off its curve when Solve is done.
const deviceTolerance = 1e-10

// ConvergenceError says that the devices did not settle.
type ConvergenceError struct {
	Element    Element // the device furthest from its curve
	Amp        float64 // how far, A
	Iterations int
}

func (e *ConvergenceError) Error() string {
	return fmt.Sprintf("the network did not settle after %d iterations: the worst device is element %d, %g A off its curve; look for a device at the edge between two states",
		e.Iterations, e.Element, e.Amp)
}

// LawError says that a device's law gave something that is not a finite number.
type LawError struct {
	Element Element
	Volt    float64 // the voltage it was asked at, V
}

func (e *LawError) Error() string {
	return fmt.Sprintf("the law of element %d gives no finite current at %g V; mend the law or its values", e.Element, e.Volt)
}

// settle finds the voltages at which all devices are on their curves and leaves them in work.x. It is Newton's method
// with a line search that goes down the network's co-content (W. Millar, "Some general theorems for non-linear systems
// possessing resistance", 1951). Where no current falls with its voltage the co-content is convex and every step leads
// nearer. Demands are held off until the rest has settled; from the open-circuit voltages so found, Newton's method
// runs down to the highest operating point (monotone convergence: Ortega and Rheinboldt 1970, 13.3).
func (n *Network) settle() (iterations int, err error) {
	holding := false
	for i := range n.devices {
		d := &n.devices[i]
		d.known = false
		d.held = d.demand
		holding = holding || d.demand && !n.open[d.e]
		if !n.open[d.e] && !d.take(d.start) {
			return 0, &LawError{d.e, d.v}
		}
	}
	if iterations, err = n.iterate(holding); err == nil {
		for i := range n.devices {
			n.devices[i].known = !n.open[n.devices[i].e]
		}
	}
	return iterations, err
}

// iterate goes on from the points the devices' curves were last taken at; holding says that Demands are held off.
func (n *Network) iterate(holding bool) (iterations int, err error) {
	w := &n.work
	for iterations = 1; ; iterations++ {
		eased := n.tangents()
		n.linear(w.next)
		worst, amp, err := n.offCurve()
		if err != nil {
			return iterations, err
		}
		if worst == NoElement || iterations == 1 {
			w.x, w.next = w.next, w.x
		} else {
			n.step(eased)
		}
		switch {
		case worst == NoElement && !holding:
			return iterations, nil
		case worst == NoElement:
			holding = false
			for i := range n.devices {
				d := &n.devices[i]
				d.held = false
				d.idle = n.drop(w.x, d.e)
			}
		case iterations >= MaxIterations:
			return iterations, &ConvergenceError{Element: worst, Amp: amp, Iterations: iterations}
		}
		for i := range n.devices {
			if d := &n.devices[i]; !n.open[d.e] && !d.take(n.drop(w.x, d.e)) {
				return iterations, &LawError{d.e, d.v}
			}
		}
	}
}

// tangents puts the tangents of all devices into the network and factorises it. Where falling currents make that
// impossible they are taken as level, and eased is true: the step found still leads downhill.
func (n *Network) tangents() (eased bool) {
	for i := range n.devices {
		if d := &n.devices[i]; !n.open[d.e] {
			n.setTerms(d.e, d.siemens, d.v, d.amp)
		}
	}
	if n.refactor() {
		return false
	}
	for i := range n.devices {
		if d := &n.devices[i]; !n.open[d.e] {
			n.setConductance(d.e, max(d.siemens, LeakSiemens))
		}
	}
	n.refactor() // cannot fail: no conductance is negative
	return true
}

// drop returns the voltage over e.
func (n *Network) drop(x []volt, e Element) float64 {
	at := n.sym.ends[e]
	return x[at.a].minus(x[at.b])
}

// offCurve returns the device whose current by its tangent, at the new voltages, is furthest from its curve, and how
// far; NoElement if all are on their curves.
func (n *Network) offCurve() (worst Element, amp float64, err error) {
	worst = NoElement
	ratio := 1.0
	for i := range n.devices {
		d := &n.devices[i]
		if n.open[d.e] {
			continue
		}
		g := n.g[d.e]
		d.to = n.drop(n.work.next, d.e)
		d.linear = d.amp + g*(d.to-d.v)
		curve, slope := d.current(d.to)
		if !finite(curve) || !finite(slope) {
			return NoElement, 0, &LawError{d.e, d.to}
		}
		off := math.Abs(curve - d.linear)
		allowed := deviceTolerance*math.Abs(curve) + floorAmp + roundingAmp(max(math.Abs(slope), math.Abs(g)), d.to)
		if !(off <= ratio*allowed) {
			worst, amp, ratio = d.e, off, off/allowed
		}
	}
	return worst, amp, nil
}

// roundingAmp is the current by which a device of slope g may miss its curve because its voltage has 53 bits only.
func roundingAmp(g, volt float64) float64 {
	const ulps = 16.0 / (1 << 52)
	return ulps * g * math.Abs(volt)
}

// step goes from work.x towards work.next as far as that leads downhill, or further in an eased step.
func (n *Network) step(eased bool) {
	w := &n.work
	t := n.stepLength(eased)
	if t == 1 {
		w.x, w.next = w.next, w.x
		return
	}
	for i, to := range w.next[:n.sym.size] {
		w.x[i] = w.x[i].plus(t * to.minus(w.x[i]))
	}
}

// stepLength returns a length of the step, 1 being a full one, at which the co-content is lower than at the start by a
// fair part of what the step can give.
func (n *Network) stepLength(eased bool) float64 {
	const flat = 0.25 // how much of the first descent may remain
	n.work.curvature = n.curvature()
	start := n.ascent(0)
	low, high := 0.0, 1.0
	atLow, atHigh := start, n.ascent(high)
	if atHigh <= 0 && eased {
		for atHigh < flat*start && high < 1e6 {
			low, atLow = high, atHigh
			high *= 2
			atHigh = n.ascent(high)
		}
	}
	if atHigh <= 0 {
		return high
	}
	// The lowest point lies between low and high. Narrow that down until one of them is level enough, so that a narrow
	// steep part of a curve is not missed, and surely below the start: where the co-content is convex it falls by more
	// than -atLow·low up to low and rises by less than atHigh·(high-low) from there.
	for i := range 200 {
		if atHigh <= -flat*start && atHigh*(high-low) <= -0.5*atLow*low {
			return high
		}
		t := low + (high-low)/2
		if i%2 == 1 {
			if secant := (low*atHigh - high*atLow) / (atHigh - atLow); secant > low && secant < high {
				t = secant
			}
		}
		at := n.ascent(t)
		switch {
		case at <= 0 && at >= flat*start:
			return t
		case at < 0:
			low, atLow = t, at
		default:
			high, atHigh = t, at
		}
	}
	return high
}

// curvature returns how much the linear elements' part of the co-content bends on the way from work.x to work.next.
func (n *Network) curvature() float64 {
	w, sum := &n.work, 0.0
	for e, k := range n.kind {
		if k == KindResistor || k == KindVoltage {
			d := n.drop(w.next, Element(e)) - n.drop(w.x, Element(e))
			sum += n.g[e] * d * d
		}
	}
	return sum
}

// ascent returns the slope of the co-content at a share t of the step. As Kirchhoff's law holds at its end with the
// tangents in place of the curves, the linear elements come in by their curvature alone.
func (n *Network) ascent(t float64) float64 {
	sum := (t - 1) * n.work.curvature
	for i := range n.devices {
		d := &n.devices[i]
		if n.open[d.e] {
			continue
		}
		delta := d.to - d.v
		amp, _ := d.current(d.v + t*delta)
		sum += (amp - d.linear) * delta
	}
	return sum
}
