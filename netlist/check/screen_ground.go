package check

import (
	"fmt"
	"slices"

	"loomwright/netlist"
	"loomwright/schematic"
)

var screenGround = Rule{
	ID:    "screen not grounded at one end",
	Title: "Screens are grounded at exactly one end",
	Help: "A screen grounded nowhere does not screen; grounded at both ends it carries the difference of the grounds and becomes a " +
		"loop. Screens that go on through a connector count as one. High-frequency cables grounded at both ends on purpose are " +
		"for their maker to say.",
	Source: "common practice, no source",
	run:    (*run).screens,
}

// screens puts drain wires that hang together into one screen and counts the
// places where each meets ground.
func (r *run) screens() {
	groups := slices.SortedFunc(r.doc.Groups(), schematic.CompareItems)
	drains := map[int]*schematic.Group{} // branch → its screen
	for _, g := range groups {
		if g.Type != schematic.ScreenGroup {
			continue
		}
		if b := r.n.WireBranch(g.Drain); b >= 0 {
			drains[b] = g
		} else {
			r.add(Finding{Severity: NotAssessed, Items: []schematic.Key{g.Key()}, Missing: "the drain wire of " + g.Name,
				Text: fmt.Sprintf("Where the screen %s is grounded is not assessed: its drain wire is missing.", g.Name)})
		}
	}
	done := map[*schematic.Group]bool{}
	for _, g := range groups {
		if b := r.n.WireBranch(g.Drain); g.Type == schematic.ScreenGroup && b >= 0 && !done[g] {
			r.screen(b, drains, done)
		}
	}
}

// screen looks at the screen that a drain wire belongs to.
func (r *run) screen(from int, drains map[int]*schematic.Group, done map[*schematic.Group]bool) {
	nodes := []int{r.n.Branches[from].A, r.n.Branches[from].B}
	seen := map[int]bool{nodes[0]: true, nodes[1]: true}
	var grounded []int
	var names []string
	var items []schematic.Key
	for k := 0; k < len(nodes); k++ {
		at := nodes[k]
		if r.isGroundPoint(at, drains) {
			grounded = append(grounded, at)
			continue // what lies behind ground is no screen
		}
		for _, i := range r.n.At(at) {
			g, is := drains[i]
			if is && !done[g] {
				done[g] = true
				names, items = append(names, g.Name), append(items, r.n.Branches[i].Key())
			}
			to := r.n.Branches[i].Other(at)
			if (is || r.n.Branches[i].Role == netlist.RoleMate) && !seen[to] {
				seen[to] = true
				nodes = append(nodes, to)
			}
		}
	}
	if g := drains[from]; !done[g] { // both its ends lie on ground
		done[g] = true
		names, items = append(names, g.Name), append(items, r.n.Branches[from].Key())
	}
	if len(grounded) == 1 {
		return
	}
	slices.SortFunc(names, schematic.CompareNames)
	f := Finding{Severity: Warning, Items: items, Text: fmt.Sprintf("The screen %s is grounded nowhere.", list(names))}
	if len(grounded) > 1 {
		slices.SortFunc(grounded, func(a, b int) int { return schematic.CompareNames(r.n.Nodes[a].Name, r.n.Nodes[b].Name) })
		var at []string
		for _, i := range grounded {
			at = append(at, r.n.Nodes[i].Name)
			if pin := r.n.Nodes[i].Pin; pin.Pin != "" {
				f.Pins = append(f.Pins, pin)
			}
		}
		f.Text = fmt.Sprintf("The screen %s is grounded at %d places: %s.", list(names), len(grounded), list(at))
	}
	r.add(f)
}

// isGroundPoint reports whether a node leads to ground without a drain wire or
// a connector: by wires and joints. A unit's own screen pin counts as grounded.
func (r *run) isGroundPoint(node int, without map[int]*schematic.Group) bool {
	if p := r.n.Nodes[node].Part; p != nil && r.signal(&r.n.Nodes[node]) == "screen" && slices.ContainsFunc(r.n.At(node), func(i int) bool {
		return isJoint(&r.n.Branches[i])
	}) {
		return true
	}
	grounded := isGround(r.n)
	seen := map[int]bool{node: true}
	for todo := []int{node}; len(todo) > 0; todo = todo[1:] {
		at := todo[0]
		if r.n.Nodes[at].Ground != "" || r.isBatteryGround(at, grounded) {
			return true
		}
		for _, i := range r.n.At(at) {
			br := &r.n.Branches[i]
			to := br.Other(at)
			mate := br.Role == netlist.RoleMate && at != node // the screen goes on there
			if without[i] == nil && !seen[to] && (br.Role == netlist.RoleWire || isJoint(br) || mate) {
				seen[to] = true
				todo = append(todo, to)
			}
		}
	}
	return false
}

// isBatteryGround reports whether a node is the negative pole of a source that
// counts as ground.
func (r *run) isBatteryGround(node int, grounded []bool) bool {
	return grounded[r.n.Nodes[node].Net] && slices.ContainsFunc(r.n.At(node), func(i int) bool {
		return r.n.Branches[i].IsSource() && r.n.Branches[i].B == node
	})
}

func isJoint(br *netlist.Branch) bool {
	return br.Role == netlist.RoleElement && br.Element.Type == schematic.ElemJoint
}
