package schematic

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Problem is one broken rule of the document's own integrity: a reference to
// nothing, a designation used twice. Electrical mistakes are not problems.
type Problem struct {
	At   Key
	Path string // field within the item, "" for the item itself
	Text string
}

func (p Problem) String() string {
	if p.Path == "" {
		return p.Text
	}
	return p.Path + ": " + p.Text
}

// Check returns the problems of a document in stable order; none for every
// document the editor can make.
func Check(d *Doc) []Problem {
	c := checker{d: d, names: map[string]Key{}}
	for it := range d.All() {
		c.at = it.Key()
		c.item(it)
	}
	slices.SortStableFunc(c.out, func(a, b Problem) int {
		return cmp.Or(a.At.Compare(b.At), strings.Compare(a.Path, b.Path))
	})
	return c.out
}

type checker struct {
	d     *Doc
	at    Key
	names map[string]Key
	out   []Problem
}

func (c *checker) add(path, format string, args ...any) {
	c.out = append(c.out, Problem{c.at, path, fmt.Sprintf(format, args...)})
}

func (c *checker) item(it Item) {
	if c.at.Type != TypeInfo && (c.at.ID == ID{}) {
		c.add("id", "the ID is missing: the %s needs one", c.at.Type)
	}
	if name := NameOf(it); name != "" {
		if other, taken := c.names[name]; taken {
			c.add("name", "designation %s is used twice, also by %s", name, Describe(c.d.Get(other)))
		} else {
			c.names[name] = it.Key()
		}
	}
	switch it := it.(type) {
	case *Part:
		c.part(it)
	case *Wire:
		c.wire(it)
	case *Group:
		if it.Type != TwistGroup && it.Type != ScreenGroup {
			c.add("type", "%q is not a wire group: write twist or screen", it.Type)
		}
		c.ref("drain", TypeWire, it.Drain)
	case *Loom:
		c.loom(it)
	case *State:
		c.state(it)
	case *Info:
		c.info(it)
	case *Sheet:
		c.extent("width", it.Width)
		c.extent("height", it.Height)
	case *Note:
		c.sheet("sheet", it.Sheet)
		c.point("at", it.At)
		c.extent("width", it.Width)
		c.extent("height", it.Height)
		c.extent("size", it.Size)
	case *Reading:
		c.reading(it)
	case *Acceptance:
		c.acceptance(it)
	case *Kind:
		if lib := c.d.Kind(it.Name); lib != nil && lib != it {
			c.add("name", "part kind %q is defined twice", it.Name)
		}
		c.kind(it)
	}
}

func (c *checker) info(x *Info) {
	c.num("system_volt", x.SystemVolt)
	if v, ok := x.SystemVolt.Get(); ok && v <= 0 {
		c.add("system_volt", "%g V is not a system voltage: write 12 or 24, say", v)
	}
	c.num("ambient_c", x.AmbientC)
	c.values("limits", x.Limits)
	for i, w := range x.WireLabel {
		if w != WordNone && !slices.Contains(WireWords(), w) {
			c.add(fmt.Sprintf("wire_label[%d]", i), "%q is nothing a wire is labelled with: write name, size, color, circuit or none", w)
		}
	}
}

func (c *checker) reading(x *Reading) {
	switch x.Quantity {
	case "volt", "amp", "ohm":
	default:
		c.add("quantity", "%q is not a quantity: write volt, amp or ohm", x.Quantity)
	}
	c.number("value", x.Value)
	c.pin("from", x.From)
	if x.To != (PinRef{}) {
		c.pin("to", x.To)
	}
	c.ref("state", TypeState, x.State)
}

func (c *checker) ref(path string, t ItemType, id ID) {
	if (id != ID{}) && c.d.Get(Key{t, id}) == nil {
		c.add(path, "the %s %s it refers to is not in the document", t, id)
	}
}

func (c *checker) sheet(path string, id ID) {
	if c.d.Sheet(id) == nil {
		c.add(path, "lies on a sheet %s that is not in the document", id)
	}
}

func (c *checker) pin(path string, r PinRef) {
	p := c.d.Part(r.Part)
	if p == nil {
		c.add(path+".part", "the part %s it refers to is not in the document", r.Part)
		return
	}
	if c.d.KindOf(p) == nil && len(p.Pins) == 0 {
		return // a kind nobody defines: its pins cannot be known
	}
	if _, ok := c.d.PinOf(p, r.Pin); !ok {
		c.add(path+".pin", "%s has no pin %q: %s", p.Name, r.Pin, hasNames(c.d.PinsOf(p), func(p Pin) string { return p.Name }))
	}
}

func (c *checker) part(p *Part) {
	if p.Name == "" {
		c.add("name", "a part needs a designation")
	}
	k := c.d.KindOf(p)
	c.views(p, k)
	c.ownPins(p, k)
	if (p.Mate != ID{}) {
		c.ref("mate", TypePart, p.Mate)
		if p.Mate == p.ID {
			c.add("mate", "%s is mated to itself: name the other half", p.Name)
		}
		if m := c.d.Part(p.Mate); m != nil && m.Mate != p.ID {
			c.add("mate", "%s is mated to %s, but %s is not mated to %[1]s: name %[1]s as the mate of %[2]s too", p.Name, m.Name, m.Name)
		}
	}
	c.ref("loom", TypeLoom, p.Loom)
	if l := c.d.Loom(p.Loom); l != nil && (p.Node != ID{}) {
		if !slices.ContainsFunc(l.Nodes, func(n Node) bool { return n.ID == p.Node }) {
			c.add("node", "loom %s has no node %s", l.Name, p.Node)
		}
	}
	c.values("values", p.Values)
	if h := p.Housing; h != nil {
		c.notNegative("housing.contact_mm", h.ContactMM)
		c.notNegative("housing.rated_amp", h.RatedAmp)
		c.notNegative("housing.seal_min_mm", h.SealMinMM)
		c.notNegative("housing.seal_max_mm", h.SealMaxMM)
		c.notNegative("housing.wire_min_mm2", h.WireMinMM2)
		c.notNegative("housing.wire_max_mm2", h.WireMaxMM2)
	}
	c.build(p.Build)
}

// views looks at the symbols of a part; k is nil for a kind nobody defines.
func (c *checker) views(p *Part, k *Kind) {
	views := make(map[string]bool, len(p.Views))
	for i, v := range p.Views {
		at := fmt.Sprintf("views[%d]", i)
		c.sheet(at+".sheet", v.Sheet)
		if views[v.Key] {
			c.add(at+".key", "%s has two views with the key %q", p.Name, v.Key)
		}
		views[v.Key] = true
		if v.Turns < 0 || v.Turns > 3 {
			c.add(at+".turns", "%d quarter turns: write 0, 1, 2 or 3", v.Turns)
		}
		c.point(at+".at", v.At)
		c.point(at+".tag", v.Tag)
		if k != nil {
			if _, ok := k.Section(v.Section); !ok {
				c.add(at+".section", "part kind %q has no section %q", k.Name, v.Section)
			}
		}
	}
}

// ownPins looks at the pins a part lists itself.
func (c *checker) ownPins(p *Part, k *Kind) {
	pins := map[string]bool{}
	for i, pin := range p.Pins {
		if pin.Name == "" || pins[pin.Name] {
			c.add(fmt.Sprintf("pins[%d].name", i), "%s needs a pin name of its own here, found %q", p.Name, pin.Name)
		}
		pins[pin.Name] = true
		c.pinData(i, pin)
		if k != nil && k.OwnPins {
			if _, ok := k.Role(pin.Role); !ok {
				c.add(fmt.Sprintf("pins[%d].role", i), "part kind %q has no pin role %q: %s", k.Name, pin.Role, hasNames(k.Roles, func(r Role) string { return r.Name }))
			}
		}
	}
}

func (c *checker) build(b Build) {
	if b == "" {
		return
	}
	if slices.Contains(Builds(), b) {
		return
	}
	c.add("build", "%q is not a build step: write one of %v", b, Builds())
}

// shown reports what [Doc.EndAt] finds out by placing every pin.
func (c *checker) shown(p *Part, name string, sheet ID) bool {
	pin, _ := c.d.PinOf(p, name)
	for _, v := range p.Views {
		if v.Sheet == sheet && v.Section == pin.Section {
			return true
		}
	}
	return false
}

func (c *checker) wire(w *Wire) {
	if w.Name == "" {
		c.add("name", "a wire needs a designation")
	}
	c.sheet("sheet", w.Sheet)
	for _, e := range []struct {
		path string
		End
	}{{"a", w.A}, {"b", w.B}} {
		if e.Loose() {
			continue
		}
		before := len(c.out)
		c.pin(e.path, e.Ref())
		p := c.d.Part(e.Part)
		if len(c.out) > before || c.d.KindOf(p) == nil {
			continue
		}
		if !c.shown(p, e.Pin, w.Sheet) {
			c.add(e.path, "pin %s of %s is not shown on the sheet the wire is drawn on: give %[2]s a view there that shows it", e.Pin, p.Name)
		}
	}
	c.points("via", w.Via)
	c.point("tag", w.Tag)
	c.point("a.at", w.A.At)
	c.point("b.at", w.B.At)
	c.notNegative("length_mm", w.LengthMM)
	c.notNegative("slack_mm", w.SlackMM)
	c.notNegative("a.joint_ohm", w.A.JointOhm)
	c.notNegative("b.joint_ohm", w.B.JointOhm)
	c.num("temp_c", w.TempC)
	switch w.Metal {
	case "", Copper, Tinned, Aluminium:
	default:
		c.add("metal", "%q is not a conductor metal: write copper, tinned copper or aluminium", w.Metal)
	}
	c.ref("loom", TypeLoom, w.Loom)
	c.ref("twist", TypeGroup, w.Twist)
	c.ref("screen", TypeGroup, w.Screen)
	c.build(w.Build)
	if len(w.Route) == 0 {
		return
	}
	l := c.d.Loom(w.Loom)
	if l == nil {
		if (w.Loom == ID{}) {
			c.add("route", "names segments but the wire has no loom")
		}
		return
	}
	for i, id := range w.Route {
		if _, ok := l.Segment(id); !ok {
			c.add(fmt.Sprintf("route[%d]", i), "loom %s has no segment %s", l.Name, id)
		}
	}
}

func (c *checker) loom(l *Loom) {
	nodes := map[ID]bool{}
	for i, n := range l.Nodes {
		if nodes[n.ID] {
			c.add(fmt.Sprintf("nodes[%d].id", i), "the ID %s is used twice", n.ID)
		}
		nodes[n.ID] = true
		c.point(fmt.Sprintf("nodes[%d].at", i), n.At)
	}
	segs := map[ID]bool{}
	for i, s := range l.Segments {
		at := fmt.Sprintf("segments[%d]", i)
		if segs[s.ID] {
			c.add(at+".id", "the ID %s is used twice", s.ID)
		}
		segs[s.ID] = true
		if !nodes[s.From] {
			c.add(at+".from", "loom %s has no node %s", l.Name, s.From)
		}
		if !nodes[s.To] {
			c.add(at+".to", "loom %s has no node %s", l.Name, s.To)
		}
		c.notNegative(at+".length_mm", s.LengthMM)
		c.num(at+".ambient_c", s.AmbientC)
		for j, h := range s.Holes {
			at := fmt.Sprintf("%s.holes[%d]", at, j)
			c.notNegative(at+".diameter_mm", h.DiameterMM)
			c.notNegative(at+".from_mm", h.FromMM)
		}
	}
}

func (c *checker) state(s *State) {
	if s.Engine != "" && !slices.Contains(Engines(), s.Engine) {
		c.add("engine", "%q is not an engine state: write off, cranking, idle or running", s.Engine)
	}
	for i, set := range s.Set {
		at := fmt.Sprintf("set[%d]", i)
		if c.d.Part(set.Part) == nil {
			c.add(at+".part", "the part %s it refers to is not in the document", set.Part)
		}
		if v, ok := set.Duty.Get(); ok && (v < 0 || v > 1) {
			c.add(at+".duty", "%g is not a share of time: write 0 to 1", v)
		}
	}
}

// acceptance does not ask whether what was accepted is still there.
func (c *checker) acceptance(a *Acceptance) {
	if a.Rule == "" {
		c.add("rule", "an acceptance needs the rule whose finding it lets stand")
	}
	if a.Reason == "" {
		c.add("reason", "an acceptance needs a reason")
	}
	for i, s := range a.Items {
		if SubjectOf(s.Key()) != s {
			c.add(fmt.Sprintf("items[%d]", i), "names several items: give each an entry of its own")
		}
	}
	c.num("value", a.Value)
	c.num("limit", a.Limit)
}

// mostNames is how many names a mistake lists.
const mostNames = 20

// hasNames tells what there is to choose from: "it has 1, 2".
func hasNames[T any](list []T, name func(T) string) string {
	if len(list) == 0 {
		return "it has none"
	}
	var names []string
	for _, x := range list[:min(len(list), mostNames)] {
		names = append(names, name(x))
	}
	if more := len(list) - len(names); more > 0 {
		return fmt.Sprintf("it has %s and %d more", strings.Join(names, ", "), more)
	}
	return "it has " + strings.Join(names, ", ")
}
