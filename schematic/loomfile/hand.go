package loomfile

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/canon"
)

// byHand fills in what a file written by hand may leave out or say shortly:
// IDs, references by name, wire ends as "F3.1", the sheet where there is but
// one, the order of sheets and states. A canonical file stays as it is. It
// returns the IDs made for wires that had none.
func byHand(t *canon.Tree) ([]schematic.ID, error) {
	h := hand{t: t, texts: map[schematic.ItemType]map[string][]string{}, given: map[schematic.ItemType]map[string]string{}, first: map[schematic.ItemType]map[string]placed{}}
	for _, s := range sections {
		h.wellMade(s)
		h.each(s, func(n *canon.Node, i int) { h.identify(s, n, i) })
	}
	if sheets := t.Root.Field("sheets"); sheets != nil && len(sheets.Kids) == 1 {
		h.sheet = textOf(sheets.Kids[0].Field("id"))
	}
	h.looms = h.readLooms()
	for _, s := range sections {
		h.each(s, func(n *canon.Node, i int) { h.refer(s, n, place{s, i}) })
	}
	var wires []schematic.ID
	for text := range h.given[schematic.TypeWire] {
		wires = append(wires, DeriveID(schematic.TypeWire, text))
	}
	return wires, h.mistakes.err(h.t)
}

type hand struct {
	t        *canon.Tree
	sheet    string // the ID of the only sheet, "" when there are several
	given    map[schematic.ItemType]map[string]string
	first    map[schematic.ItemType]map[string]placed   // who was given an ID made from a text
	texts    map[schematic.ItemType]map[string][]string // built by names
	looms    map[string]*loomTexts
	mistakes mistakes
}

// place is where an item stands; its path is only made for mistakes.
type place struct {
	section
	i int
}

func (p place) path(rest string) string { return fmt.Sprintf("%s[%d].%s", p.list, p.i, rest) }

func textOf(n *canon.Node) string {
	if n == nil || n.Kind != canon.Text {
		return ""
	}
	return n.Text
}

// each visits the objects of a list; what is none is left to the decoder.
func (h *hand) each(s section, f func(n *canon.Node, i int)) {
	list := h.t.Root.Field(s.list)
	if list == nil || list.Kind != canon.List {
		return
	}
	for i := range list.Kids {
		if list.Kids[i].Kind == canon.Object {
			f(&list.Kids[i], i)
		}
	}
}

// wellMade says what is no list or no item: else it would only be said what
// cannot be found in it.
func (h *hand) wellMade(s section) {
	list := h.t.Root.Field(s.list)
	if list == nil || list.Kind == canon.Null {
		return
	}
	if list.Kind != canon.List {
		h.mistakes.add(list, s.list, "a list should stand here, found %s", list.Kind)
		return
	}
	for i := range list.Kids {
		if n := &list.Kids[i]; n.Kind != canon.Object && n.Kind != canon.Null {
			h.mistakes.add(n, fmt.Sprintf("%s[%d]", s.list, i), "an object should stand here, found %s", n.Kind)
		}
	}
}

// identify gives an item its ID, and its place in the order.
func (h *hand) identify(s section, n *canon.Node, i int) {
	if (s.typ == schematic.TypeSheet || s.typ == schematic.TypeState) && n.Field("order") == nil {
		n.Set("order", canon.IntNode(i))
	}
	id := n.Field("id")
	text := ""
	switch {
	case id == nil:
		text = textOf(n.Field("name"))
		if s.typ == schematic.TypeNote || s.typ == schematic.TypeReading || s.typ == schematic.TypeAcceptance {
			text = fmt.Sprintf("#%d", i+1)
		}
		if name := n.Field("name"); text == "" && name != nil && name.Kind != canon.Text {
			h.mistakes.add(name, place{s, i}.path("name"), "a text should stand here, found %s", name.Kind)
			return
		}
		if text == "" {
			h.mistakes.add(n, place{s, i}.path("name"), "a %s needs a name", s.word)
			return
		}
	case id.Kind != canon.Text || isUUID(id.Text):
		return
	case id.Text == "":
		h.mistakes.add(id, place{s, i}.path("id"), "the ID is empty: leave it out, or write a short text")
		return
	default:
		text = id.Text
	}
	made := DeriveID(s.typ, text).String()
	n.Set("id", canon.TextNode(made))
	if h.given[s.typ] == nil {
		h.given[s.typ] = map[string]string{}
		h.first[s.typ] = map[string]placed{}
	}
	if first, twice := h.first[s.typ][text]; twice {
		h.mistakes.add(n.Field("id"), place{s, i}.path("id"), "%s %s has the same ID as %s %s on line %s (%s[%d]): give one of them another ID or name",
			s.word, textOf(n.Field("name")), s.word, textOf(first.n.Field("name")), line{h.t, first.n}, s.list, first.i)
		return
	}
	h.given[s.typ][text] = made
	h.first[s.typ][text] = placed{n, i}
}

// placed is an item of a list and where it stands in it.
type placed struct {
	n *canon.Node
	i int
}

// names returns the IDs each text may stand for among the items of a type:
// texts given as ID, and names. A canonical file never asks.
func (h *hand) names(t schematic.ItemType) map[string][]string {
	if m, ok := h.texts[t]; ok {
		return m
	}
	m := map[string][]string{}
	for text, id := range h.given[t] {
		m[text] = []string{id}
	}
	h.each(sectionOf(t), func(n *canon.Node, _ int) {
		addText(m, textOf(n.Field("name")), textOf(n.Field("id")))
	})
	h.texts[t] = m
	return m
}

func addText(m map[string][]string, text, id string) {
	if text != "" && id != "" && !slices.Contains(m[text], id) {
		m[text] = append(m[text], id)
	}
}

// ref replaces the reference in a member of n, if it is a text that is no ID.
func (h *hand) ref(t schematic.ItemType, n *canon.Node, member string, at place, path string) {
	h.lookUp(n.Field(member), func() map[string][]string { return h.names(t) }, t.String(), "the file", at, path+member)
}

// lookUp replaces a reference to what, a part say, that should be in where.
func (h *hand) lookUp(f *canon.Node, names func() map[string][]string, what, where string, at place, path string) {
	if f == nil || f.Kind != canon.Text || isUUID(f.Text) {
		return
	}
	switch ids := names()[f.Text]; {
	case f.Text == "":
		h.mistakes.add(f, at.path(path), "the reference is empty: leave it out, or name a %s", what)
	case len(ids) == 0:
		h.mistakes.add(f, at.path(path), "there is no %s %q in %s", what, f.Text, where)
	case len(ids) > 1:
		h.mistakes.add(f, at.path(path), "%q could mean %d different things here: rename one, or refer to its ID", f.Text, len(ids))
	default:
		f.Become(canon.TextNode(ids[0]))
	}
}

// onSheet resolves the member "sheet" of n, or fills in the only sheet.
func (h *hand) onSheet(n *canon.Node, at place, path string) {
	if n.Field("sheet") != nil {
		h.ref(schematic.TypeSheet, n, "sheet", at, path)
		return
	}
	if h.sheet != "" {
		n.Set("sheet", canon.TextNode(h.sheet))
		return
	}
	h.mistakes.add(n, at.path(path+"sheet"), "the sheet is missing: it may be left out only where the file has exactly one")
}

// refer resolves all references of an item.
func (h *hand) refer(s section, n *canon.Node, at place) {
	switch s.typ {
	case schematic.TypePart:
		eachObject(n.Field("views"), func(v *canon.Node, i int) {
			h.onSheet(v, at, fmt.Sprintf("views[%d].", i))
		})
		h.ref(schematic.TypePart, n, "mate", at, "")
		h.ref(schematic.TypeLoom, n, "loom", at, "")
		h.inLoom(n, n.Field("node"), at, "node")
	case schematic.TypeWire:
		h.onSheet(n, at, "")
		for _, end := range []string{"a", "b"} {
			if n.Field(end) == nil {
				h.mistakes.add(n, at.path(end), `a wire needs both its ends: write "%s": "F1.2", or for a loose end "%s": {"at": [x, y]}`, end, end)
			}
			h.end(n, end, at)
		}
		h.ref(schematic.TypeLoom, n, "loom", at, "")
		h.ref(schematic.TypeGroup, n, "twist", at, "")
		h.ref(schematic.TypeGroup, n, "screen", at, "")
		if route := n.Field("route"); route != nil && route.Kind == canon.List {
			for i := range route.Kids {
				h.inLoom(n, &route.Kids[i], at, fmt.Sprintf("route[%d]", i))
			}
		}
	case schematic.TypeGroup:
		h.ref(schematic.TypeWire, n, "drain", at, "")
	case schematic.TypeState:
		eachObject(n.Field("set"), func(v *canon.Node, i int) {
			h.ref(schematic.TypePart, v, "part", at, fmt.Sprintf("set[%d].", i))
		})
	case schematic.TypeNote:
		h.onSheet(n, at, "")
	case schematic.TypeReading:
		h.end(n, "from", at)
		h.end(n, "to", at)
		h.ref(schematic.TypeState, n, "state", at, "")
	case schematic.TypeAcceptance:
		eachObject(n.Field("items"), func(v *canon.Node, i int) {
			for _, s := range sections {
				if s.typ != schematic.TypeAcceptance {
					h.ref(s.typ, v, s.word, at, fmt.Sprintf("items[%d].", i))
				}
			}
		})
	}
}

func eachObject(list *canon.Node, f func(n *canon.Node, i int)) {
	if list == nil || list.Kind != canon.List {
		return
	}
	for i := range list.Kids {
		if list.Kids[i].Kind == canon.Object {
			f(&list.Kids[i], i)
		}
	}
}

// end resolves a member that names a pin, as an object or as "F3.1".
func (h *hand) end(n *canon.Node, member string, at place) {
	f := n.Field(member)
	switch {
	case f == nil:
	case f.Kind == canon.Object:
		h.ref(schematic.TypePart, f, "part", at, member+".")
	case f.Kind == canon.Text:
		part, pin, err := h.splitPin(f.Text)
		if err != nil {
			h.mistakes.add(f, at.path(member), "%s", err)
			return
		}
		f.Become(canon.ObjectNode(canon.TextNode(part).Named("part"), canon.TextNode(pin).Named("pin")))
	}
}

// splitPin reads "F3.1". Designations and pin names may hold points
// themselves, so the part before the point must be one the file has.
func (h *hand) splitPin(s string) (part, pin string, err error) {
	found := 0
	names := h.names(schematic.TypePart)
	for i := range len(s) {
		if s[i] != '.' || i+1 == len(s) {
			continue
		}
		ids := names[s[:i]]
		if isUUID(s[:i]) {
			ids = []string{s[:i]}
		}
		if len(ids) > 0 {
			part, pin = ids[0], s[i+1:]
			found += len(ids)
		}
	}
	switch name, _, dotted := strings.Cut(s, "."); {
	case found == 1:
		return part, pin, nil
	case found > 1:
		return "", "", fmt.Errorf(`%q could mean several pins: write {"part": …, "pin": …}`, s)
	case dotted && len(names[name]) == 0:
		return "", "", fmt.Errorf("there is no part %q in the file", name)
	}
	return "", "", fmt.Errorf(`%q names no pin: write the designation of the part, a point and the pin, as in "F3.1"`, s)
}
