package check

import (
	"math"
	"slices"

	"loomwright/netlist"
	"loomwright/schematic"
)

// metal is the sheet metal that the ground studs of one sort share.
type metal struct {
	name   string // "body"
	node   int
	studs  []*schematic.Part // in the order of their names
	joints []int             // branches from the studs to the metal, in the same order
}

// metals lists the metals to whose studs a wire leads, by name.
func (r *run) metals() []metal {
	at := map[string]*metal{}
	var names []string
	for i := range r.n.Branches {
		br := &r.n.Branches[i]
		if br.Role != netlist.RoleElement || br.Kind.Ground == "" || !isJoint(br) {
			continue
		}
		node := br.B
		if r.n.Nodes[node].Ground == "" {
			node = br.A
		}
		if !r.wired(br.Other(node)) {
			continue
		}
		m := at[br.Kind.Ground]
		if m == nil {
			m = &metal{name: br.Kind.Ground, node: node}
			at[m.name], names = m, append(names, m.name)
		}
		m.joints = append(m.joints, i)
	}
	slices.Sort(names)
	var out []metal
	for _, name := range names {
		m := *at[name]
		slices.SortFunc(m.joints, func(i, j int) int {
			return schematic.CompareNames(r.n.Branches[i].Part.Name, r.n.Branches[j].Part.Name)
		})
		for _, i := range m.joints {
			m.studs = append(m.studs, r.n.Branches[i].Part)
		}
		out = append(out, m)
	}
	return out
}

// isStrapLine reports whether a branch may be part of a strap: wires, plugs,
// studs, splices and the contact of a main switch. What leads through a unit is
// none.
func isStrapLine(br *netlist.Branch) bool {
	return br.Role != netlist.RoleElement || isJoint(br) && br.Kind.Passes || isSwitch(br)
}

// strapBlocks divides what straps are made of.
func (r *run) strapBlocks() *gapped {
	if r.straps == nil {
		r.straps = r.findGapped(isStrapLine)
	}
	return r.straps
}

// gapped are blocks of lines, with the lines without data of each.
type gapped struct {
	*blocks
	unknown map[int][]int // block → branches
}

func (r *run) findGapped(use func(*netlist.Branch) bool) *gapped {
	g := &gapped{unknown: map[int][]int{}}
	g.blocks = findBlocks(len(r.n.Nodes), r.edges(), func(i int) bool { return use(&r.n.Branches[i]) })
	for i, block := range g.of {
		if block >= 0 && unknownLine(&r.n.Branches[i]) {
			g.unknown[block] = append(g.unknown[block], i)
		}
	}
	return g
}

// gaps lists the lines without data on all ways from one node to another.
func (g *gapped) gaps(from, to int) []int {
	if len(g.unknown) == 0 {
		return nil
	}
	on, ok := g.between(from, to)
	if !ok {
		return nil
	}
	var out []int
	for block := range on {
		out = append(out, g.unknown[block]...)
	}
	slices.Sort(out)
	return out
}

// groundLines divides the wires, plugs and joints of the drawing, inside units too.
func (r *run) groundLines() *gapped {
	if r.joints == nil {
		r.joints = r.findGapped(func(br *netlist.Branch) bool { return br.Role != netlist.RoleElement || isJoint(br) })
	}
	return r.joints
}

// lacking names what the lines without data lack: "length of W4".
func (r *run) lacking(lines []int) (what []string, items []schematic.Key) {
	for _, i := range lines {
		br := &r.n.Branches[i]
		what, items = append(what, br.MissingOf()), append(items, br.Key())
	}
	return what, items
}

// leaving lists the wires by which current leaves a metal in an operating
// state, the strongest first, with what each carries.
func (r *run) leaving(m metal, s *netlist.Solution) (wires []int, amps []float64, sum float64) {
	out := map[int]float64{}
	for _, j := range m.joints {
		stud := r.n.Branches[j].Other(m.node)
		for _, i := range r.n.At(stud) {
			br := &r.n.Branches[i]
			if br.Role == netlist.RoleElement || br.A == br.B {
				continue
			}
			a := s.Amp[i]
			if br.B == stud {
				a = -a
			}
			if a > quiet {
				out[i] = a
			}
		}
	}
	for i := range out {
		wires = append(wires, i)
	}
	slices.SortFunc(wires, func(i, j int) int {
		if d := out[j] - out[i]; math.Abs(d) > 1e-9 {
			return int(math.Copysign(1, d))
		}
		return schematic.CompareNames(r.n.Branches[i].Name(), r.n.Branches[j].Name())
	})
	for _, i := range wires {
		amps, sum = append(amps, out[i]), sum+out[i]
	}
	return wires, amps, sum
}
