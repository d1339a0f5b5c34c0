package edit

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

func TestSearchReplaces(t *testing.T) {
	for _, c := range []struct {
		why  string
		s    Search
		text string
		want string // "" finds nothing
	}{
		{"every find", Search{Find: "fan", With: "pump"}, "fan and fan", "pump and pump"},
		{"capitals do not matter", Search{Find: "fan", With: "pump"}, "Fan", "pump"},
		{"unless asked for", Search{Find: "fan", With: "pump", MatchCase: true}, "Fan", ""},
		{"within a word", Search{Find: "F1", With: "F2"}, "F12", "F22"},
		{"not within a word", Search{Find: "F1", With: "F2", Whole: true}, "F12", ""},
		{"by itself among others", Search{Find: "F1", With: "F2", Whole: true}, "F12, F1 and (F1)", "F12, F2 and (F2)"},
		{"what is put in is not searched again", Search{Find: "a", With: "aa"}, "aba", "aabaa"},
		{"to nothing", Search{Find: " left", With: ""}, "fan left", "fan"},
		{"letters of more than a byte", Search{Find: "ö", With: "oe"}, "Öl", "oel"},
		{"capitals of another length", Search{Find: "ß", With: "ss"}, "groß", "gross"},
		{"a find longer than the text", Search{Find: "fanfan"}, "fan", ""},
		{"bytes that are no letters", Search{Find: "x", With: "y"}, "\xff\xfex", "\xff\xfey"},
	} {
		got, found := c.s.replace(c.text)
		if found != (c.want != "") || found && got != c.want {
			t.Errorf("%s: %q, %v", c.why, got, found)
		}
	}
}

// allKeys lists everything in a document in a stable order.
func allKeys(d *schematic.Doc) []schematic.Key {
	var keys []schematic.Key
	for it := range d.All() {
		keys = append(keys, it.Key())
	}
	slices.SortFunc(keys, schematic.Key.Compare)
	return keys
}

func TestFindAndReplaceEverywhere(t *testing.T) {
	b := newBench(t)
	f := b.place("fuse", 100, 100)
	u := b.place("unit", 300, 100)
	w := b.wire(at(f, "2"), loose(100, 500))
	b.must(func(tx *Tx) error {
		if err := AddNote(tx, b.sheet, geom.Pt(500, 500), 0, 0, "the F fan"); err != nil {
			return err
		}
		if err := SetPart(tx, f.ID, func(p *schematic.Part) { p.Label, p.Number, p.Notes = "fan fuse", "fan-1", "near the fan" }); err != nil {
			return err
		}
		if err := SetPart(tx, u.ID, func(p *schematic.Part) { p.Pins[0].Title = "fan speed" }); err != nil {
			return err
		}
		if err := RenameSheet(tx, b.sheet, "Fan sheet"); err != nil {
			return err
		}
		return SetWire(tx, w.ID, func(w *schematic.Wire) { w.Circuit, w.Color = "fan feed", schematic.Color{Base: "RD", Tracer: "WH"} })
	})
	found := FindText(b.Doc(), allKeys(b.Doc()), Search{Find: "fan", With: "pump", Fields: Fields()})
	var said []string
	for _, m := range found {
		said = append(said, fmt.Sprintf("%s: %s > %s", m.Field, m.Was, m.Is))
	}
	slices.Sort(said)
	equalText(t, "found", strings.Join(said, "\n"), `circuit: fan feed > pump feed
notes: near the fan > near the pump
notes: the F fan > the F pump
part number: fan-1 > pump-1
pin title: fan speed > pump speed
sheet name: Fan sheet > pump sheet
what it does: fan fuse > pump fuse`)
	start := b.Doc()
	b.must(func(tx *Tx) error { return ReplaceText(tx, found) })
	if left := FindText(b.Doc(), allKeys(b.Doc()), Search{Find: "fan", Fields: Fields()}); len(left) > 0 {
		t.Errorf("left over: %v", left)
	}
	if got := b.Doc().Part(f.ID); got.Label != "pump fuse" || got.Notes != "near the pump" {
		t.Errorf("the fuse reads %q, %q", got.Label, got.Notes)
	}
	b.refused("search again", func(tx *Tx) error { return ReplaceText(tx, found) })
	if err := b.Undo(); err != nil || b.Doc() != start {
		t.Errorf("one step does not take it all back: %v", err)
	}

	colors := FindText(b.Doc(), allKeys(b.Doc()), Search{Find: "rd", With: "GN", Fields: []Field{Colors}})
	b.must(func(tx *Tx) error { return ReplaceText(tx, colors) })
	equalText(t, "colour", b.Doc().Wire(w.ID).Color.String(), "GN/WH")
	b.refused("is not a wire colour", func(tx *Tx) error {
		return ReplaceText(tx, FindText(b.Doc(), allKeys(b.Doc()), Search{Find: "GN", With: "XX", Fields: []Field{Colors}}))
	})
	b.refused("the note is empty", func(tx *Tx) error {
		return ReplaceText(tx, FindText(b.Doc(), allKeys(b.Doc()), Search{Find: "the F fan", Fields: []Field{Notes}}))
	})
	if FindText(b.Doc(), allKeys(b.Doc()), Search{Fields: Fields()}) != nil {
		t.Error("an empty search finds something")
	}
}

func TestReplacedDesignationsStayUnique(t *testing.T) {
	b := newBench(t)
	one, two := b.place("fuse", 100, 100), b.place("fuse", 200, 100)
	names := func(find, with string) []Match {
		return FindText(b.Doc(), keysOf(one, two), Search{Find: find, With: with, Fields: []Field{Designations}})
	}
	b.refused("F2 is taken by another part", func(tx *Tx) error { return ReplaceText(tx, names("1", "2")) })
	b.refused("would both be X", func(tx *Tx) error {
		return ReplaceText(tx, []Match{{Key: one.Key(), Field: Designations, Was: "F1", Is: "X"}, {Key: two.Key(), Field: Designations, Was: "F2", Is: "X"}})
	})
	b.refused("cannot be empty", func(tx *Tx) error { return ReplaceText(tx, names("F1", " ")) })
	b.must(func(tx *Tx) error {
		return ReplaceText(tx, []Match{{Key: one.Key(), Field: Designations, Was: "F1", Is: "F2"}, {Key: two.Key(), Field: Designations, Was: "F2", Is: "F1"}})
	})
	equalText(t, "exchanged", b.Doc().Part(one.ID).Name+b.Doc().Part(two.ID).Name, "F2F1")
	b.must(func(tx *Tx) error { return ReplaceText(tx, names("F", "FU")) })
	equalText(t, "new letters", b.names(), "FU1 FU2")
}

func TestNumbering(t *testing.T) {
	b := newBench(t)
	// Two rows, the first a little uneven, and a wire.
	var all []schematic.Item
	for _, p := range []geom.Point{{X: 500, Y: 100}, {X: 100, Y: 125}, {X: 300, Y: 75}, {X: 100, Y: 500}, {X: 300, Y: 500}} {
		all = append(all, b.place("fuse", p.X, p.Y))
	}
	all = append(all, b.wire(loose(700, 0), loose(700, 600)))
	keys := keysOf(all...)
	order := func() string {
		var names []string
		for _, it := range all {
			names = append(names, schematic.NameOf(b.Doc().Get(it.Key())))
		}
		return strings.Join(names, " ")
	}
	b.must(func(tx *Tx) error { return Renumber(tx, keys[:5], Numbering{Prefix: "F", Start: 1}) })
	equalText(t, "row by row", order(), "F3 F1 F2 F4 F5 W1")
	b.must(func(tx *Tx) error { return Renumber(tx, keys[:5], Numbering{Prefix: "F", Start: 11, Columns: true}) })
	equalText(t, "column by column", order(), "F15 F11 F13 F12 F14 W1")
	b.must(func(tx *Tx) error { return Renumber(tx, keys[3:5], Numbering{Prefix: "F", Start: 13}) })
	equalText(t, "numbers of others are passed over", order(), "F15 F11 F13 F14 F16 W1")
	b.must(func(tx *Tx) error { return Renumber(tx, keys[5:], Numbering{Prefix: "FAN-", Start: 0}) })
	equalText(t, "other letters", order(), "F15 F11 F13 F14 F16 FAN-0")
	for _, n := range []Numbering{{Prefix: ""}, {Prefix: " F"}, {Prefix: "F1"}, {Prefix: "F", Start: -1}, {Prefix: "F", Start: 2_000_000}} {
		b.refused("write", func(tx *Tx) error { return Renumber(tx, keys, n) })
	}
	b.refused("no part or wire", func(tx *Tx) error {
		return Renumber(tx, []schematic.Key{{Type: schematic.TypeSheet, ID: b.sheet}}, Numbering{Prefix: "F"})
	})
}
