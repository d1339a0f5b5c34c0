package check

import (
	"fmt"
	"math"

	"loomwright/calc"
	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/schematic"
)

var groundPath = Rule{
	ID:    "ground path too resistive",
	Title: "Resistance from a load's ground to battery negative",
	Help: "The resistance of wires, plugs, joints and sheet metal between the point where a load's return meets the ground and battery " +
		"negative, parallel ways counted in. A load's own largest current must not lift its ground above the limit: R ≤ U/I.",
	Source: "vehicle workshop manuals, voltage-drop tests, seen second-hand",
	run:    func(r *run) { r.grounded(true) },
}

var groundShared = Rule{
	ID:    "ground lifted by others",
	Title: "Voltage at a load's ground against battery negative",
	Help: "The voltage the ground of a load stands at in its worst operating state, where its own current alone would keep the limit: " +
		"what others send through the same ground lifts it too. Sensors and electronics suffer first.",
	Source: "vehicle workshop manuals, voltage-drop tests, seen second-hand",
	run:    func(r *run) { r.grounded(false) },
}

// earth is where a load's return meets the ground.
type earth struct {
	load int
	node int
	s    *netlist.Solution
	amp  float64 // A of the load
	rise float64 // V
	back way
}

// earths is a load's ground in the operating state that lifts it most and in
// the one with the load's largest current.
type earths struct {
	highest, strongest earth
	unknown            []int // lines without data on the way
}

// earths looks at a load's ground once for both rules.
func (r *run) earths(load int) earths {
	e, ok := r.earthed[load]
	if !ok {
		e = r.findEarths(load)
		if r.earthed == nil {
			r.earthed = map[int]earths{}
		}
		r.earthed[load] = e
	}
	return e
}

func (r *run) findEarths(load int) earths {
	var out earths
	g := r.groundNet()
	for _, s := range r.usable() {
		amp := math.Abs(s.Amp[load])
		if amp <= quiet {
			continue
		}
		_, back := r.flow(s).sides(load)
		node, way := r.meet(s, load, back)
		if node < 0 || !g.in[node] {
			continue
		}
		v, ok := s.VoltAt(node)
		if !ok {
			continue
		}
		e := earth{load, node, s, amp, math.Abs(v), way}
		if out.highest.s == nil || e.rise > out.highest.rise {
			out.highest = e
		}
		if out.strongest.s == nil || amp > out.strongest.amp {
			out.strongest = e
		}
		if out.unknown == nil {
			out.unknown = r.groundLines().gaps(node, r.n.Reference)
		}
	}
	return out
}

// meet returns the node where a return reaches the ground and its way from
// there to the battery. A load that returns through the load of another part
// has no ground of its own: what is wrong with the ground is said of the other.
func (r *run) meet(s *netlist.Solution, load int, back way) (int, way) {
	br := &r.n.Branches[load]
	node := br.B
	if s.Amp[load] < 0 {
		node = br.A
	}
	g := r.groundNet()
	f := r.flow(s)
	for range len(r.n.Nodes) {
		if g.in[node] {
			return node, f.follow(node, f.out, -1)
		}
		i := f.out[node]
		if i < 0 || r.n.Branches[i].IsSource() || r.n.Branches[i].IsLoad() && r.n.Branches[i].Part != br.Part {
			return -1, back
		}
		node = r.n.Branches[i].Other(node)
	}
	return -1, back
}

// groundLimit returns the voltage a load's ground may rise to.
func (r *run) groundLimit(br *netlist.Branch) (float64, tables.Source) {
	if br.Element.Load == "starter" {
		return r.limit(limitGroundStart)
	}
	return r.limit(limitGround)
}

// grounded looks at every load's ground: at its resistance, or at what others
// add. One part at one ground gives one finding, for its largest load.
func (r *run) grounded(own bool) {
	said := map[schematic.PinRef]Finding{}
	o := others{r: r}
	var order []schematic.PinRef
	for i := range r.n.Branches {
		br := &r.n.Branches[i]
		if !br.IsLoad() || br.Element.Load == "charging" {
			continue
		}
		e := r.earths(i)
		if e.highest.s == nil {
			continue
		}
		f, ok := r.groundFinding(br, e, own)
		if !ok {
			if !own && e.highest.rise <= first(r.groundLimit(br)) {
				o.keeps(i, e.highest.back.lines)
			}
			continue
		}
		key := schematic.PinRef{Part: br.Part.ID, Pin: r.n.Nodes[e.highest.node].Name}
		had, twice := said[key]
		if !twice {
			order = append(order, key)
		}
		if !twice || compare(f, had) < 0 {
			said[key] = f
		}
	}
	for _, key := range order {
		r.add(said[key])
	}
	o.tell("the grounds of", "stand higher than the figures say, which is not assessed")
}

// risesOf writes how high a node stands in each operating state, where there
// are several.
func (r *run) risesOf(node int) string {
	var rises []string
	for _, s := range r.usable() {
		if v, ok := s.VoltAt(node); ok {
			rises = append(rises, volts(math.Abs(v))+" "+inState(s))
		}
	}
	if len(rises) < 2 {
		return ""
	}
	return "; " + list(rises)
}

func (r *run) groundFinding(br *netlist.Branch, e earths, own bool) (Finding, bool) {
	highest, strongest, unknown := e.highest, e.strongest, e.unknown
	limit, src := r.groundLimit(br)
	f := Finding{Severity: Warning, Items: []schematic.Key{br.Key()}, Source: src.String()}
	if pin := r.n.Nodes[strongest.node].Pin; pin.Pin != "" {
		f.Pins = []schematic.PinRef{pin}
	}
	if len(unknown) > 0 {
		if !own {
			return Finding{}, false
		}
		var what []string
		for _, i := range unknown {
			f.Items = append(f.Items, r.n.Branches[i].Key())
			what = append(what, r.n.Branches[i].MissingOf())
		}
		f.Severity, f.Missing = NotAssessed, list(what)
		f.Text = fmt.Sprintf("The ground of %s is not assessed: %s %s missing.", br.Name(), f.Missing, is(len(what)))
		return of(strongest.s, f), true
	}
	ohm, ok := r.groundNet().ohm(strongest.node)
	if !ok {
		return Finding{}, false
	}
	if beyond := ohm*strongest.amp > limit; beyond != own || !own && highest.rise <= limit {
		return Finding{}, false
	}
	if own {
		allowed := 0.0
		if res, err := calc.GroundLimit(limit, strongest.amp); err == nil {
			allowed, f.Formula = res.Value, res.Formula
		}
		f.Unit, f.Value, f.Limit, f.Margin = "ohm", schematic.Some(ohm), schematic.Some(allowed), schematic.Some(allowed-ohm)
		f.Text = fmt.Sprintf("The ground of %s has %s to battery negative; its own %s may meet %s at most to keep within %s.",
			br.Name(), ohms(ohm), amps(strongest.amp), ohms(allowed), volts(limit))
		f.remedy = func() []Fix { return r.thickerForGround(strongest, ohm, limit) }
		return of(strongest.s, f), true
	}
	f.Unit, f.Value, f.Limit, f.Margin = "V", schematic.Some(highest.rise), schematic.Some(limit), schematic.Some(limit-highest.rise)
	f.Text = fmt.Sprintf("The ground of %s stands at %s, %s are allowed; its own %s account for %s of it.",
		br.Name(), volts(highest.rise), volts(limit), amps(highest.amp), volts(highest.amp*ohm))
	f.Formula = r.sumOf(highest.s, highest.back.lines, highest.rise) + r.risesOf(highest.node)
	f.remedy = func() []Fix { return r.thickerForRise(highest, limit) }
	return of(highest.s, f), true
}
