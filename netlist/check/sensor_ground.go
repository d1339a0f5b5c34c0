package check

import (
	"fmt"
	"math"
	"slices"

	"loomwright/netlist"
	"loomwright/schematic"
)

var sensorGround = Rule{
	ID:    "sensor ground shared",
	Title: "Sensor ground joined with power ground, or with a load on it",
	Help: "A sensor's voltage is measured against the sensor ground of the unit. Joined with a ground stud, or as the return of a lamp, " +
		"motor, valve or heater, it stands at whatever that current drops along the wire, and every reading is off by it.",
	Source: "common practice, no source",
	run:    (*run).sensorGrounds,
}

func (r *run) sensorGrounds() {
	seen := map[int]bool{}
	for i := range r.n.Nodes {
		if node := &r.n.Nodes[i]; !seen[i] && node.Part != nil && !node.Inner && r.signal(node) == "sensor-ground" {
			r.sensorGround(r.wiring(i, seen))
		}
	}
}

// wiring lists the nodes that wires, connectors and studs join with a node, as
// far as the first pins of power ground, without going through any unit: its
// pins for sensor ground and for power ground meet inside it, and nowhere
// else. Nodes but those of power ground are marked in seen.
func (r *run) wiring(node int, seen map[int]bool) []int {
	seen[node] = true
	out := []int{node}
	for k := 0; k < len(out); k++ {
		if r.signal(&r.n.Nodes[out[k]]) == "ground" {
			continue
		}
		for _, i := range r.n.At(out[k]) {
			br := &r.n.Branches[i]
			to := br.Other(out[k])
			if seen[to] || slices.Contains(out, to) || br.Role == netlist.RoleElement && !(isJoint(br) && br.Kind.Passes) {
				continue
			}
			out = append(out, to)
			if r.signal(&r.n.Nodes[to]) != "ground" {
				seen[to] = true
			}
		}
	}
	return out
}

// sensorGround looks at a piece of wiring with a pin for sensor ground.
func (r *run) sensorGround(nodes []int) {
	var sensors, grounds, loads []string
	slices.SortFunc(nodes, func(a, b int) int { return schematic.CompareNames(r.n.Nodes[a].Name, r.n.Nodes[b].Name) })
	main := &r.n.Nodes[nodes[slices.IndexFunc(nodes, func(i int) bool { return r.signal(&r.n.Nodes[i]) == "sensor-ground" })]]
	f := Finding{Severity: Warning, Items: []schematic.Key{main.Part.Key()}, Pins: []schematic.PinRef{main.Pin}}
	var branches []int
	for _, i := range nodes {
		node := &r.n.Nodes[i]
		if node.Part == nil || node.Inner {
			continue
		}
		switch r.signal(node) {
		case "sensor-ground":
			sensors = append(sensors, node.Name)
		case "ground":
			grounds, f.Pins, f.Items = append(grounds, node.Name), append(f.Pins, node.Pin), append(f.Items, node.Part.Key())
			continue
		}
		for _, b := range r.n.At(i) {
			br := &r.n.Branches[b]
			if br.IsLoad() && br.Element.Load != "sensor" && !slices.Contains(branches, b) {
				branches, f.Pins, f.Items = append(branches, b), append(f.Pins, node.Pin), append(f.Items, br.Key())
				loads = append(loads, br.Name())
			}
		}
	}
	at, most := r.heaviest(branches)
	switch {
	case len(grounds) > 0:
		f.Text = fmt.Sprintf("The sensor ground of %s is joined with power ground at %s.", list(sensors), list(grounds))
		f = r.strays(nodes, f)
	case at != nil:
		f.Text = fmt.Sprintf("The sensor ground of %s carries the return of %s: %s.", list(sensors), list(loads), amps(most))
		f.Value, f.Unit = schematic.Some(most), "A"
		f = of(at, f)
	case len(loads) > 0:
		f.Text = fmt.Sprintf("The sensor ground of %s is the return of %s.", list(sensors), list(loads))
	default:
		return
	}
	slices.SortFunc(f.Items[1:], schematic.Key.Compare)
	f.Items = slices.Compact(f.Items)
	r.add(f)
}

// strayAmp is the current through a unit's sensor ground, in A, above which it
// is told: sensors take some hundredths (judgement, no source).
const strayAmp = 0.1

// strays adds to a finding what flows home through the unit's own pin for
// sensor ground, as it does where the power ground beside it is lost.
func (r *run) strays(nodes []int, f Finding) Finding {
	most, pin := strayAmp, -1
	for _, i := range nodes {
		if r.signal(&r.n.Nodes[i]) != "sensor-ground" {
			continue
		}
		for _, b := range r.n.At(i) {
			if br := &r.n.Branches[b]; !isJoint(br) || br.Kind.Passes {
				continue
			}
			if at, amp := r.heaviest([]int{b}); amp > most {
				most, pin, f = amp, i, of(at, f)
			}
		}
	}
	if pin >= 0 {
		f.Text += fmt.Sprintf(" %s flow home through %s.", amps(most), r.n.Nodes[pin].Name)
	}
	return f
}

// heaviest returns the state in which some branches carry most together.
func (r *run) heaviest(branches []int) (*netlist.Solution, float64) {
	var at *netlist.Solution
	most := quiet
	for _, s := range r.usable() {
		sum := 0.0
		for _, i := range branches {
			sum += math.Abs(s.Amp[i])
		}
		if sum > most {
			at, most = s, sum
		}
	}
	return at, most
}
