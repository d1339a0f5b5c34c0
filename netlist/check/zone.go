package check

import (
	"math"

	"loomwright/netlist"
	"loomwright/schematic"
)

// zones divides the network at everything that holds a fault current back.
// Within a zone nothing does: wires, plugs, joints, contacts in whatever
// position, drivers. Ground is no zone: what comes after a load needs no fuse.
type zones struct {
	n     *netlist.Netlist
	net   []int   // net → zone, ground for ground nets
	live  []bool  // zone → a source's positive pole lies in it
	at    [][]int // zone → links
	links []link
	inner [][]int // zone → branches within it
	whole map[int]fed
	last  *search
}

const ground = -1

// link is what joins two zones: a fuse, a diode, a regulator.
type link struct {
	branch   int
	from, to int // zones; either may be ground
	oneWay   bool
	amp      float64 // what it lets through for good, A; +Inf for a diode
	known    bool    // false: amp stands for a rating nobody gave
}

// isFuse reports whether a branch is a fuse, link or breaker.
func isFuse(br *netlist.Branch) bool {
	return br.Role == netlist.RoleElement && br.Element.Type == schematic.ElemFuse
}

// shuntOhm is the resistance below which a resistor that is no load holds no
// fault current back: shunts of meters have less, signal resistors far more
// (judgement, no source).
const shuntOhm = 1

// carriesOn reports whether a fault current passes a branch as if it were wire.
func carriesOn(br *netlist.Branch) bool {
	if br.Role != netlist.RoleElement {
		return true
	}
	switch br.Element.Type {
	case schematic.ElemJoint, schematic.ElemContact, schematic.ElemOutput:
		return true
	case schematic.ElemResistor:
		return !br.IsLoad() && (!br.OhmKnown || br.Ohm < shuntOhm)
	}
	return false
}

// isGround tells which nets belong to battery negative.
func isGround(n *netlist.Netlist) []bool {
	g := make([]bool, len(n.Nets))
	for i := range n.Branches {
		if br := &n.Branches[i]; br.IsSource() {
			g[n.Nodes[br.B].Net] = true
		}
	}
	for i := range n.Branches {
		if br := &n.Branches[i]; br.IsSource() {
			g[n.Nodes[br.A].Net] = false // batteries in series: the upper one's negative is live
		}
	}
	return g
}

// zones returns the division, made once.
func (r *run) zones() *zones {
	if r.zone == nil {
		r.zone = divide(r.n)
	}
	return r.zone
}

func divide(n *netlist.Netlist) *zones {
	z := &zones{n: n, net: make([]int, len(n.Nets))}
	isGround := isGround(n)
	joined := netlist.NewGroups(len(n.Nets))
	for i := range n.Branches {
		br := &n.Branches[i]
		a, b := n.Nodes[br.A].Net, n.Nodes[br.B].Net
		if carriesOn(br) && !isGround[a] && !isGround[b] {
			joined.Join(a, b)
		}
	}
	number := map[int]int{}
	for net := range n.Nets {
		if isGround[net] {
			z.net[net] = ground
			continue
		}
		root := joined.Of(net)
		if _, ok := number[root]; !ok {
			number[root] = len(number)
		}
		z.net[net] = number[root]
	}
	z.live, z.at, z.inner = make([]bool, len(number)), make([][]int, len(number)), make([][]int, len(number))
	for i := range n.Branches {
		z.place(i)
	}
	return z
}

// place enters a branch into the division.
func (z *zones) place(i int) {
	br := &z.n.Branches[i]
	a, b := z.of(br.A), z.of(br.B)
	switch {
	case br.IsSource():
		if a != ground {
			z.live[a] = true
		}
	case isFuse(br):
		amp, ok := br.Value("amp").Get()
		ok = ok && amp > 0
		if !ok {
			amp = math.Inf(1)
		}
		z.link(link{branch: i, from: a, to: b, amp: amp, known: ok})
	case isOneWay(br):
		z.link(link{branch: i, from: a, to: b, oneWay: true, amp: math.Inf(1), known: true})
	case br.Role == netlist.RoleElement && br.Element.Type == schematic.ElemRegulator && br.Feed >= 0:
		amp, ok := br.Value("limit_amp").Get()
		if !ok {
			amp = math.Inf(1)
		}
		z.link(link{branch: i, from: z.of(br.Feed), to: a, oneWay: true, amp: amp, known: ok})
	case carriesOn(br) && a != ground && a == b:
		z.inner[a] = append(z.inner[a], i)
	}
}

// isOneWay reports whether a branch is a diode that a fault current passes.
func isOneWay(br *netlist.Branch) bool {
	return br.Role == netlist.RoleElement && br.Element.Type == schematic.ElemDiode && !isPartOfLoad(br)
}

// isPartOfLoad reports whether an element belongs to a load without being one,
// such as the diode of an indicator.
func isPartOfLoad(br *netlist.Branch) bool { return br.Element.Load != "" && !br.IsSource() }

func (z *zones) link(l link) {
	if l.from == ground || l.to == ground || l.from == l.to {
		return
	}
	i := len(z.links)
	z.links = append(z.links, l)
	z.at[l.from] = append(z.at[l.from], i)
	z.at[l.to] = append(z.at[l.to], i)
}

// of returns the zone of a node.
func (z *zones) of(node int) int { return z.net[z.n.Nodes[node].Net] }
