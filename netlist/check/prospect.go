package check

import (
	"math"

	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/netlist/dc"
	"loomwright/schematic"
)

// prospect answers what current a dead short to the nearest metal draws at any
// point of the feed: batteries behind their inner resistance, wires, plugs,
// joints, contacts in whatever position and fuses; loads and alternators give
// nothing. On a branch of the feed the resistances add up; only what is left,
// the core with the sources, is a network, factorised once: a point takes one
// resistance between two nodes of it.
type prospect struct {
	n     *netlist.Netlist
	ohm   []float64 // by branch: of a line that is part of the feed, 0 for others
	emf   []emf     // batteries and diodes
	known []bool    // branch → part of the feed
	metal int       // node a short leads to; -1 where nothing can be told
	stems
	net  *dc.Network
	elem []dc.Element // by branch, -1 for what is not in the core
	row  []dc.Node    // by node of the core
	sol  dc.Solution
	memo []shortAt // by node
	// gap is the nearest line of unknown resistance between a source and a
	// node, -1 for none; hot alone.
	gap []int
}

// emf is a battery or a diode that conducts: volts behind a resistance.
type emf struct {
	branch    int
	volt, ohm float64
}

// shortAt is a short at a node.
type shortAt struct {
	volt, ohm float64 // before the short, and of the whole circuit
	asked     bool
}

func (s shortAt) amp() float64 { return s.volt / s.ohm }

// temper is how warm the copper is taken for.
type temper uint8

const (
	hot  temper = iota // at the temperature its insulation bears for good, fuses as at their rating: least current
	cold               // at 20 °C: most current
)

// coldC is the temperature of cold copper in degC, at which resistances are
// published.
const coldC = 20

// prospect returns the network of shorts, made once for each temper.
func (r *run) prospect(t temper) *prospect {
	if r.prospects[t] == nil {
		r.prospects[t] = r.newProspect(t)
	}
	return r.prospects[t]
}

func (r *run) newProspect(t temper) *prospect {
	n, z := r.n, r.zones()
	p := &prospect{n: n, ohm: make([]float64, len(n.Branches)), known: make([]bool, len(n.Branches)), memo: make([]shortAt, len(n.Nodes)), metal: -1}
	if n.Reference < 0 {
		return p
	}
	p.gather(r, t)
	p.strip()
	if !p.build() {
		return p
	}
	p.metal = n.Reference
	p.findMetal(t)
	if t == hot {
		p.findGaps(z)
	}
	return p
}

// gather lists what the feed is made of.
func (p *prospect) gather(r *run, t temper) {
	z := r.zones()
	for i := range p.n.Branches {
		br := &p.n.Branches[i]
		switch {
		case br.A == br.B:
		case br.IsSource():
			if br.Element.Type == schematic.ElemBattery && len(br.Missing) == 0 {
				cells := br.Cells()
				p.emf, p.known[i] = append(p.emf, emf{i, cells.Volt, inRange(cells.Ohm)}), true
			}
		case !feeds(z, br):
		case isOneWay(br):
			if volt, ok := br.Value("volt").Get(); ok && len(br.Missing) == 0 {
				p.emf, p.known[i] = append(p.emf, emf{i, volt, inRange(br.Value("ohm").Or(0))}), true
			}
		default:
			if ohm, ok := r.lineOhm(br, t); ok {
				p.ohm[i], p.known[i] = inRange(ohm), true
			}
		}
	}
}

// build makes a network of the core; false where it cannot be solved.
func (p *prospect) build() bool {
	p.row, p.elem = make([]dc.Node, len(p.n.Nodes)), make([]dc.Element, len(p.n.Branches))
	rows := dc.Node(0)
	for node := range p.row {
		if p.row[node] = dc.NoNode; p.up[node] < 0 {
			p.row[node] = rows
			rows++
		}
	}
	p.net = dc.New(int(rows))
	must(p.net.SetReference(p.row[p.n.Reference]))
	for i := range p.elem {
		br := &p.n.Branches[i]
		if p.elem[i] = dc.NoElement; p.ohm[i] > 0 && p.row[br.A] != dc.NoNode && p.row[br.B] != dc.NoNode {
			e, err := p.net.Resistor(p.row[br.A], p.row[br.B], p.ohm[i])
			must(err)
			p.elem[i] = e
		}
	}
	for _, s := range p.emf {
		br := &p.n.Branches[s.branch]
		e, err := p.net.VoltageSource(p.row[br.A], p.row[br.B], s.volt, s.ohm)
		must(err)
		p.elem[s.branch] = e
	}
	return p.net.Solve(&p.sol) == nil
}

func inRange(ohm float64) float64 { return math.Min(math.Max(ohm, 1e-6), 1e9) }

// feeds reports whether a branch can carry the current of a short: on the side
// of the sources or on the side of ground, not between them.
func feeds(z *zones, br *netlist.Branch) bool {
	if !carriesOn(br) && !isFuse(br) && !isOneWay(br) {
		return false
	}
	return (z.of(br.A) == ground) == (z.of(br.B) == ground)
}

// lineOhm returns the resistance of a line; false where it is not known. Cold,
// one of unknown length counts as next to nothing.
func (r *run) lineOhm(br *netlist.Branch, t temper) (float64, bool) {
	switch {
	case br.Role == netlist.RoleWire:
		if !br.OhmKnown {
			return 0, t == cold
		}
		return br.Ohm + r.wireRise(br.Wire, br.Conductor, t), true
	case isFuse(br):
		c, h, ok := br.FuseOhm()
		if t == cold {
			return c, true
		}
		return h, ok
	}
	return br.Ohm, br.OhmKnown || t == cold
}

// wireRise is what a wire's resistance gains from the temperature of the air to
// that of a temper.
func (r *run) wireRise(w *schematic.Wire, c netlist.Conductor, t temper) float64 {
	row, ok := tables.MetalData(netlist.MetalOf(w))
	to := float64(coldC)
	if t == hot {
		maxC, _ := r.insulation(w)
		to = math.Max(maxC, c.AmbientC)
	}
	if !ok || math.IsNaN(to) {
		return 0
	}
	return c.WireOhm * (to - c.AmbientC) / (row.Beta + c.AmbientC)
}

// findMetal chooses the sheet metal a short leads to: of those tied to battery
// negative the one with most resistance, cold with least; the battery's
// negative where the drawing has no metal.
func (p *prospect) findMetal(t temper) {
	found := math.NaN()
	for i := range p.n.Nodes {
		if p.n.Nodes[i].Ground == "" || p.sol.Floating(p.row[i]) {
			continue
		}
		ohm := p.between(i, p.n.Reference)
		if math.IsInf(ohm, 1) {
			continue
		}
		if math.IsNaN(found) || t == hot && ohm > found || t == cold && ohm < found {
			found, p.metal = ohm, i
		}
	}
}

// between returns the resistance between two nodes of the core, sources dead;
// +Inf between islands.
func (p *prospect) between(a, b int) float64 {
	ohm, err := p.net.ResistanceBetween(p.row[a], p.row[b])
	if err != nil {
		return math.Inf(1)
	}
	return ohm
}

// findGaps walks from the batteries along the feed, over known lines first, and
// notes lines whose resistance is not known: what lies behind them alone gets a
// current nobody can tell.
func (p *prospect) findGaps(z *zones) {
	n := p.n
	p.gap = make([]int, len(n.Nodes))
	been := make([]bool, len(n.Nodes))
	var todo, behind []int // nodes; unknown lines seen on the way
	reach := func(node, gap int) {
		if !been[node] {
			been[node], p.gap[node] = true, gap
			todo = append(todo, node)
		}
	}
	for i := range n.Nodes {
		p.gap[i] = -1
	}
	for i := range n.Branches {
		if br := &n.Branches[i]; br.IsSource() && br.Element.Type == schematic.ElemBattery {
			gap := -1
			if !p.known[i] {
				gap = i
			}
			reach(br.A, gap)
			reach(br.B, gap)
		}
	}
	for len(todo)+len(behind) > 0 {
		if len(todo) == 0 {
			i := behind[0]
			behind = behind[1:]
			reach(n.Branches[i].A, i)
			reach(n.Branches[i].B, i)
			continue
		}
		node := todo[0]
		todo = todo[1:]
		for _, i := range n.At(node) {
			br := &n.Branches[i]
			switch {
			case been[br.Other(node)] || br.IsSource() || !feeds(z, br):
			case !p.known[i] || unknownLine(br) && !isFuse(br): // a link has ohms without a rating
				behind = append(behind, i)
			default:
				reach(br.Other(node), p.gap[node])
			}
		}
	}
}

// gapAt returns the nearest line of unknown resistance between a source and a
// node, -1 for none.
func (p *prospect) gapAt(node int) int {
	if len(p.gap) == 0 {
		return -1
	}
	return p.gap[node]
}

// at returns a short at a node; false where no battery reaches it over lines of
// known resistance.
func (p *prospect) at(node int) (shortAt, bool) {
	if p.metal < 0 {
		return shortAt{}, false
	}
	s := &p.memo[node]
	if !s.asked {
		s.asked = true
		if root := p.root[node]; root != node {
			at, _ := p.at(root)
			s.volt, s.ohm = at.volt, at.ohm+p.sum[node]
		} else if ohm := p.between(node, p.metal); ohm > 0 && !p.sol.Floating(p.row[node]) {
			s.volt, s.ohm = math.Abs(p.sol.Volt[p.row[node]]-p.sol.Volt[p.row[p.metal]]), ohm
		}
	}
	return *s, s.volt > leastFeedV && !math.IsInf(s.ohm, 1)
}

// leastFeedV is the voltage below which a point counts as fed by nothing
// (judgement, no source).
const leastFeedV = 0.5

// share returns the part of the current of a short at a node that a branch
// carries, and what flows in it without the short: positive from A to B. It
// follows from resistances between points alone (superposition).
func (p *prospect) share(branch, node int) (part, before float64, ok bool) {
	if p.ohm[branch] == 0 {
		return 0, 0, false
	}
	br := &p.n.Branches[branch]
	for ; p.up[node] >= 0; node = p.n.Branches[p.up[node]].Other(node) {
		switch {
		case p.up[node] != branch:
		case br.B == node:
			return 1, 0, true
		default:
			return -1, 0, true
		}
	}
	if p.elem[branch] == dc.NoElement {
		return 0, 0, true // on a branch of the feed that the short is not on
	}
	ref := p.n.Reference
	sum := p.between(br.B, ref) - p.between(br.A, ref) - p.between(br.B, node) + p.between(br.A, node)
	if math.IsNaN(sum) || math.IsInf(sum, 0) {
		return 0, 0, false
	}
	return sum / 2 / p.ohm[branch], p.sol.Amp[p.elem[branch]], true
}

// alternators returns what all alternators together can give at most, in A;
// false where one's output is not known.
func (r *run) alternators() (amp float64, ok bool) {
	if r.alternate == nil {
		r.alternate = &schematic.Num{}
		sum := 0.0
		for i := range r.n.Branches {
			br := &r.n.Branches[i]
			if !br.IsSource() || br.Element.Type != schematic.ElemAlternator {
				continue
			}
			a, known := br.Value("limit_amp").Get()
			if !known {
				return 0, false
			}
			sum += a
		}
		*r.alternate = schematic.Some(sum)
	}
	return r.alternate.Get()
}
