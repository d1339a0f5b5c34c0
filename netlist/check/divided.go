package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loomwright/netlist"
	"loomwright/schematic"
)

// division says where currents divide between parallel ways of lines and
// sources. How they do depends on every resistance of the ways, so that a
// single unknown one makes the share of each unknown.
type division struct {
	*blocks
	unknown map[int][]int   // block → lines without data
	most    map[int]float64 // block → A that any of its branches can carry at most
}

// divided returns the division of an operating state; nil where every
// resistance in parallel ways is known.
func (r *run) divided(s *netlist.Solution) *division {
	if d, ok := r.divisions[s]; ok {
		return d
	}
	if r.divisions == nil {
		r.divisions = map[*netlist.Solution]*division{}
	}
	r.divisions[s] = nil
	if !slices.ContainsFunc(r.n.Branches, func(br netlist.Branch) bool { return unknownLine(&br) && isLine(&br) }) {
		return nil
	}
	d := &division{unknown: map[int][]int{}, most: map[int]float64{}}
	d.blocks = findBlocks(len(r.n.Nodes), r.edges(), func(i int) bool {
		br := &r.n.Branches[i]
		return s.Closed[i] && (isLine(br) || br.IsSource())
	})
	size := map[int]int{}
	for i, block := range d.of {
		if block < 0 {
			continue
		}
		size[block]++
		if br := &r.n.Branches[i]; unknownLine(br) && isLine(br) {
			d.unknown[block] = append(d.unknown[block], i)
		}
	}
	for block := range d.unknown {
		if size[block] < 2 {
			delete(d.unknown, block)
		}
	}
	if len(d.unknown) > 0 {
		r.throughput(s, d)
		r.divisions[s] = d
	}
	return r.divisions[s]
}

// throughput bounds the current in each block: in a network of resistances no
// branch carries more than what flows in from outside, and alternators and
// further batteries within add what they can give.
func (r *run) throughput(s *netlist.Solution, d *division) {
	batteries := map[int]int{}
	for i, block := range d.of {
		br := &r.n.Branches[i]
		if block >= 0 {
			switch {
			case !br.IsSource():
			case br.Element.Type == schematic.ElemBattery:
				if batteries[block]++; batteries[block] > 1 {
					d.most[block] = math.Inf(1)
				}
			default:
				limit, ok := br.Value("limit_amp").Get()
				if !ok {
					limit = math.Inf(1)
				}
				d.most[block] += limit
			}
		}
	}
	for node := range r.n.Nodes {
		at := r.n.At(node)
		blocks := map[int]bool{}
		for _, i := range at {
			if b := d.of[i]; b >= 0 && d.unknown[b] != nil {
				blocks[b] = true
			}
		}
		for b := range blocks {
			into := 0.0 // A that branches of other blocks bring
			for _, i := range at {
				if d.of[i] == b {
					continue
				}
				if r.n.Branches[i].A == node {
					into -= s.Amp[i]
				} else {
					into += s.Amp[i]
				}
			}
			d.most[b] += math.Abs(into) / 2
		}
	}
}

// vague gathers the branches that would keep a limit by the figures, but whose
// current is not known for want of data on ways beside them.
type vague struct {
	r     *run
	found map[string]*vagueness
	order []string
}

type vagueness struct {
	branches, unknown []int
	most              float64
	s                 *netlist.Solution
}

// keeps enters a branch whose current keeps a limit by the figures.
func (v *vague) keeps(branch int, limit float64) {
	for _, s := range v.r.usable() {
		d := v.r.divided(s)
		if d == nil {
			continue
		}
		block := d.of[branch]
		if block < 0 || d.unknown[block] == nil || d.most[block] <= limit {
			continue
		}
		key := fmt.Sprint(d.unknown[block])
		if v.found == nil {
			v.found = map[string]*vagueness{}
		}
		x := v.found[key]
		if x == nil {
			x = &vagueness{unknown: d.unknown[block]}
			v.found[key], v.order = x, append(v.order, key)
		}
		if !slices.Contains(x.branches, branch) {
			x.branches = append(x.branches, branch)
		}
		if d.most[block] > x.most {
			x.most, x.s = d.most[block], s
		}
	}
}

// tell says what was gathered: what is not assessed, of branches by their names.
func (v *vague) tell(what string) {
	r := v.r
	for _, key := range v.order {
		x := v.found[key]
		missing, _ := r.lacking(x.unknown)
		f := Finding{Severity: NotAssessed, Items: r.keys(slices.Concat(x.branches, x.unknown)), Missing: list(missing)}
		bound := "together up to " + amps(x.most)
		if math.IsInf(x.most, 1) {
			bound = "nothing bounds it"
		}
		f.Text = fmt.Sprintf("How the current divides between %s is not known, %s; whether %s is not assessed: %s %s missing.",
			list(r.n.Names(x.branches)), bound, what, list(missing), is(len(missing)))
		r.add(of(x.s, f), "divided", strings.ReplaceAll(strings.Join(r.names(x.unknown), " "), "/", " "))
	}
}
