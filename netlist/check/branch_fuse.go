package check

import (
	"slices"

	"loomwright/netlist"
)

// isTail reports whether a wire is the short piece between a feed and the fuse
// of a branch. What holds it whole is the fuse at its end, and against a short
// in it nothing but that it is short: so does 33 CFR 183.455 (from memory) allow
// it from a source, whose current is larger still.
func (r *run) isTail(wire int) bool {
	br := &r.n.Branches[wire]
	limit, _ := r.limit(limitUnfused)
	if mm := br.Conductor.LengthMM; mm <= 0 || mm > limit {
		return false
	}
	for _, node := range []int{br.A, br.B} {
		at := r.n.At(node)
		if len(at) != 2 {
			continue
		}
		fuse := at[0] + at[1] - wire
		rating, known := r.n.Branches[fuse].Value("amp").Get()
		if !isFuse(&r.n.Branches[fuse]) || !known || !r.leadsAway(fuse, node) {
			continue
		}
		if bears, ok := r.steadyAmp(wire); ok && rating <= bears {
			return true
		}
	}
	return false
}

// leadsAway reports whether nothing comes back through a fuse to a node at it.
func (r *run) leadsAway(fuse, node int) bool {
	z := r.zones()
	far := z.of(r.n.Branches[fuse].Other(node))
	if far == ground || z.live[far] {
		return false
	}
	for _, l := range z.at[far] {
		if z.links[l].branch == fuse {
			return r.fedBeside(far, l).amp == 0
		}
	}
	return false
}

// place is a wire and its end on the side of the feed.
type place struct{ wire, node int }

// offshoot is the part of a circuit that serves the loads of one wire alone.
type offshoot struct {
	first, own place // where it begins, and the wire itself
	shared     bool  // other wires or loads hang on the feed too
}

// offshootOf walks from a wire towards the one fuse that feeds its zone until
// others hang on the way too; false where several fuses feed it or ways run in
// parallel.
func (r *run) offshootOf(wire int) (offshoot, bool) {
	by, feeder, ok := r.waysFrom(wire)
	if !ok || !r.sides().bridge[wire] {
		return offshoot{}, false
	}
	br := &r.n.Branches[wire]
	node := br.A
	if by[node] == wire {
		node = br.B
	}
	o := offshoot{own: place{wire, node}}
	for at := wire; ; node = r.n.Branches[at].Other(node) {
		if r.n.Branches[at].Role == netlist.RoleWire {
			o.first = place{at, node}
		}
		up := by[node]
		if up < 0 {
			up = feeder
		}
		for _, i := range r.n.At(node) {
			o.shared = o.shared || i != at && i != up
		}
		if o.shared || up == feeder {
			return o, true
		}
		at = up
	}
}

// waysFrom returns by which branch every node of a wire's zone is reached from
// the fuse that feeds it, -1 at that fuse; false where not just one feeds it.
func (r *run) waysFrom(wire int) (by map[int]int, feeder int, ok bool) {
	z := r.zones()
	zone := z.of(r.n.Branches[wire].A)
	feeders := r.sides().feeders[zone]
	if len(z.at[zone]) == 1 {
		feeders = z.at[zone]
	}
	if len(feeders) != 1 {
		return nil, 0, false
	}
	feeder = z.links[feeders[0]].branch
	root := r.n.Branches[feeder].A
	if z.of(root) != zone {
		root = r.n.Branches[feeder].B
	}
	by = map[int]int{root: -1}
	for todo := []int{root}; len(todo) > 0; todo = todo[1:] {
		for _, i := range r.n.At(todo[0]) {
			br := &r.n.Branches[i]
			to := br.Other(todo[0])
			if _, had := by[to]; had || !carriesOn(br) || z.of(to) != zone {
				continue
			}
			by[to] = i
			todo = append(todo, to)
		}
	}
	return by, feeder, true
}

// branchFuse offers a fuse of its own for the branch a wire belongs to, where
// it leaves the feed, else in the wire itself.
func (r *run) branchFuse(f Finding, wire int) []Fix {
	o, ok := r.offshootOf(wire)
	if !ok || !o.shared {
		return nil
	}
	limit, _ := r.limit(limitUnfused)
	for _, at := range slices.Compact([]place{o.first, o.own}) {
		feed := r.doc.Part(r.n.Nodes[at.node].Pin.Part)
		if feed == nil {
			continue
		}
		if fix := r.proven(f, r.fusesInto(at.wire, at.node, feed.Name, 0, limit)); fix != nil {
			return fix
		}
	}
	return nil
}
