package table

import (
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist"
	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/route"
)

func pasteText(t testing.TB, lines []WireLine, text string, row, col int) ([]WireLine, []string) {
	t.Helper()
	block, err := Block(text)
	require.NoError(t, err)
	got, strange, err := PasteWires(lines, block, row, col)
	require.NoError(t, err)
	return got, strange
}

func TestListsOfWiresComeFromSpreadsheets(t *testing.T) {
	want := func(fields ...any) (l WireLine) {
		for i := 0; i < len(fields); i += 2 {
			l[fields[i].(int)] = fields[i+1].(string)
		}
		return l
	}
	for _, c := range []struct {
		why, text string
		want      WireLine
		strange   []string
	}{
		{"two columns called pin, each beside its part", "Wire no.\tFrom\tPin\tTo\tPin\tmm²\n7\tF3\t2\tM1\t+\t1,5\n",
			want(lineWire, "7", lineFrom, "F3", lineFromPin, "2", lineTo, "M1", lineToPin, "+", lineSize, "1,5 mm²"), nil},
		{"any order; what nobody asked for is named", "AWG;Colour;To part;To cavity;From part;From cavity;Price;Cut length (m);Function\n18;red;X1;4;F3;2;3,20;1,2;lamp feed\n",
			want(lineSize, "AWG 18", LineColour, "red", lineTo, "X1", lineToPin, "4", lineFrom, "F3", lineFromPin, "2", lineLength, "1,2 m", lineCircuit, "lamp feed"), []string{"Price"}},
		{"both parts first, then both pins", "From\tTo\tPin\tPin\tSize\nF3\tM1\t2\t1\t0.75 mm2\n",
			want(lineFrom, "F3", lineTo, "M1", lineFromPin, "2", lineToPin, "1", lineSize, "0.75 mm2"), nil},
		{"pins with their parts; a length that follows from the route is not measured", "Wire\tFrom\tTo\tLength\tCurrent\nW1\tF3.2\tM1.1\t0.42 m by route\t3 A\n",
			want(lineWire, "W1", lineFrom, "F3.2", lineTo, "M1.1"), []string{"Current"}},
		{"terminals and seals of either end", "From,To,Terminal,Terminal,Seal at to\nF3.2,M1.1,eye,tab 6.3,yellow\n",
			want(lineFrom, "F3.2", lineTo, "M1.1", lineFromTerminal, "eye", lineToTerminal, "tab 6.3", lineToSeal, "yellow"), nil},
		{"a unit written in the cell counts", "From\tTo\tLength [mm]\tSize (mm2)\nF3.2\tM1.1\t4 ft\tAWG 16\n",
			want(lineFrom, "F3.2", lineTo, "M1.1", lineLength, "4 ft", lineSize, "AWG 16"), nil},
		{"no titles: one field after the other", "W9\tF3\t2\tM1\t1\n",
			want(lineWire, "W9", lineFrom, "F3", lineFromPin, "2", lineTo, "M1", lineToPin, "1"), nil},
		{"parts called A and B are no titles", "A\t1\tB\t2\n", want(lineWire, "A", lineFrom, "1", lineFromPin, "B", lineTo, "2"), nil},
	} {
		got, strange := pasteText(t, nil, c.text, 0, 0)
		assert.Equal(t, []WireLine{c.want}, got, c.why)
		assert.Equal(t, c.strange, strange, c.why)
	}
	got, _ := pasteText(t, make([]WireLine, 2), "x\ty\nz\n", 1, lineCircuit)
	assert.Equal(t, []WireLine{{}, want(lineCircuit, "x", lineLoom, "y"), want(lineCircuit, "z")}, got, "the list grows")
	_, _, err := PasteWires(nil, [][]string{{"a", "b"}}, 0, lineSheet)
	require.ErrorContains(t, err, "last column")
	_, _, err = PasteWires(nil, nil, 0, 0)
	require.ErrorContains(t, err, "nothing to paste")
	_, _, err = PasteWires(nil, make([][]string, maxWireLines+1), 0, 0)
	require.ErrorContains(t, err, "in parts")
}

func TestLinesOfAListAreChecked(t *testing.T) {
	d := load(t, "../../testdata/pickup.loom.json")
	free := func(name string) bool { _, used := d.Named(name); return !used }
	require.True(t, free("W900") && free("W901"))
	var w *schematic.Wire // one that joins two parts with several pins
	for _, r := range Wires(Facts{Doc: d}).Rows {
		x := d.Wire(r.Key.ID)
		if !x.A.Loose() && !x.B.Loose() && len(d.PinsOf(d.Part(x.A.Part))) > 1 && len(d.PinsOf(d.Part(x.B.Part))) > 1 {
			w = x
			break
		}
	}
	require.NotNil(t, w)
	a, b := d.Part(w.A.Part).Name, d.Part(w.B.Part).Name
	for _, c := range []struct{ why, text, wrong string }{
		{"a part nobody placed", "From\tPin\tTo\tPin\nQQ7\t1\t" + b + "\t" + w.B.Pin, `from: there is no part "QQ7"`},
		{"the same in one cell", "From\tTo\nQQ7\tF3.1", `from: there is no part "QQ7"`},
		{"a pin it does not have", "From\tPin\tTo\tPin\n" + a + "\tnine\t" + b + "\t" + w.B.Pin, "from: " + a + ` has no pin "nine": it has `},
		{"which of its pins", "From\tTo\n" + a + "\t" + b + "." + w.B.Pin, "from: " + a + " has several pins: say which, of "},
		{"no second end", "From\tTo\tSize\n" + a + "." + w.A.Pin + "\t\t1.5", `to: name a part and its pin, or write "loose"`},
		{"nowhere at all", "From\tTo\nloose\tloose", "both ends are loose"},
		{"from a pin to itself", "From\tTo\n" + a + "." + w.A.Pin + "\t" + a + "." + w.A.Pin, "both ends are at"},
		{"a size in two systems", "From\tTo\tSize\nGND1\tloose\t18", "size: "},
		{"no colour", "From\tTo\tColour\nGND1\tloose\tsunset", "colour: "},
		{"metres without their unit", "From\tTo\tLength\nGND1\tloose\t1.2", "write the unit, as in 1.2 m"},
		{"drawn already", "Wire\tFrom\tTo\n" + w.Name + "\t" + a + "." + w.A.Pin + "\t" + b + "." + w.B.Pin, w.Name + " is there already, with these ends"},
		{"drawn already the other way round", "From\tTo\n" + b + "." + w.B.Pin + "\t" + a + "." + w.A.Pin, w.Name + " joins these pins already"},
		{"a name in use", "Wire\tFrom\tTo\n" + w.Name + "\tGND1\tloose", w.Name + " is taken by another wire"},
		{"the name of a part", "Wire\tFrom\tTo\n" + a + "\tGND1\tloose", a + " is taken by "},
		{"no such loom", "From\tTo\tLoom\nGND1\tloose\tattic", `there is no loom "attic"`},
		{"a route without a loom", "From\tTo\tRoute\nGND1\tloose\tA–B", "name the loom too"},
		{"no such sheet", "From\tTo\tSheet\nGND1\tloose\tcellar", `there is no sheet "cellar"`},
		{"no such step", "From\tTo\tBuilt\nGND1\tloose\tpainted", "built: "},
	} {
		lines, _ := pasteText(t, nil, c.text, 0, 0)
		require.Len(t, lines, 1, c.why)
		got := CheckWires(d, lines, false)[0]
		require.Error(t, got.Err, c.why)
		assert.Contains(t, got.Err.Error(), c.wrong, c.why)
		if lines[0][got.At] == "" {
			assert.Contains(t, c.why, "no second end", "the field named says something")
		}
	}

	lines, _ := pasteText(t, nil, "Wire\tFrom\tTo\nW900\tGND1\tloose\nW900\tGND1\tloose\n\n\tGND1\tloose\n", 0, 0)
	lines = append(lines, WireLine{})
	checks := CheckWires(d, lines, false)
	require.NoError(t, checks[0].Err)
	require.ErrorContains(t, checks[1].Err, "row 1 has W900 already")
	require.NoError(t, checks[2].Err, "a name is found for it")
	assert.True(t, checks[3].Bare)
	wires, wrong := InOrder(checks)
	assert.Len(t, wires, 2)
	assert.Equal(t, 1, wrong)
}

func TestAPinIsCalledByWhatItIsFor(t *testing.T) {
	d := load(t, "../../testdata/pickup.loom.json")
	unit := (*schematic.Part)(nil)
	for p := range d.Parts() {
		if unit == nil || len(d.PinsOf(p)) > len(d.PinsOf(unit)) {
			unit = p
		}
	}
	titles := map[string][]string{}
	for _, pin := range d.PinsOf(unit) {
		titles[strings.ToLower(pin.Title)] = append(titles[strings.ToLower(pin.Title)], pin.Name)
	}
	once, twice := 0, 0
	for title, pins := range titles {
		got, err := pinOfPart(d, unit, title)
		switch {
		case title == "":
		case len(pins) == 1:
			once++
			require.NoError(t, err)
			assert.Equal(t, pins[0], got)
		default:
			twice++
			require.ErrorContains(t, err, "can be several pins of "+unit.Name)
		}
	}
	assert.Positive(t, once)
	t.Log(once, "titles are of one pin,", twice, "of several")
	p30, err := pinOfPart(d, partNamed(d, "k1"), "Pin 30")
	require.NoError(t, err)
	assert.Equal(t, "30", p30)
}

// bared returns a drawing without its wires.
func bared(t testing.TB, d *schematic.Doc) *schematic.Doc {
	t.Helper()
	tx := edit.Begin(d, nil)
	for w := range d.Wires() {
		tx.Delete(w.Key())
	}
	for g := range d.Groups() {
		tx.Delete(g.Key())
	}
	return tx.Doc()
}

func drawList(t testing.TB, d *schematic.Doc, lines []WireLine, showMore bool) *schematic.Doc {
	t.Helper()
	checks := CheckWires(d, lines, showMore)
	for i, c := range checks {
		require.NoError(t, c.Err, "line %d: %q", i+1, lines[i])
	}
	wires, _ := InOrder(checks)
	tx := edit.Begin(d, nil)
	require.NoError(t, edit.AddWires(tx, wires, showMore))
	var ids []schematic.ID
	for _, k := range tx.Selected() {
		ids = append(ids, k.ID)
	}
	vias, err := route.AnewAll(context.Background(), tx.Doc(), ids, nil)
	require.NoError(t, err)
	require.NoError(t, edit.SetBends(tx, vias))
	require.Empty(t, schematic.Check(tx.Doc()))
	return tx.Doc()
}

// netsOf lists the pins that each net joins.
func netsOf(d *schematic.Doc) []string {
	n := netlist.Build(d)
	var nets []string
	for _, net := range n.Nets {
		var pins []string
		for _, i := range net.Nodes {
			pins = append(pins, n.Nodes[i].Name)
		}
		slices.Sort(pins)
		nets = append(nets, strings.Join(pins, " "))
	}
	slices.Sort(nets)
	return nets
}

// A table of wires written out as text and pasted into the drawing without its
// wires makes the same nets of the same wires: with its titles, in another order
// of columns, and as rows copied without titles.
func TestATableOfWiresDrawsItsDrawingAgain(t *testing.T) {
	for _, file := range []string{"fan", "lamp-faulty", "pickup"} {
		d := load(t, "../../testdata/"+file+".loom.json")
		was := Wires(Facts{Doc: d})
		data := func(doc *schematic.Doc) string {
			tab := Wires(Facts{Doc: doc})
			cols := slices.DeleteFunc(tab.AllColumns(), func(i int) bool { return tab.Columns[i].ID == "finding" })
			return tab.Lines(tab.Rows, cols, true)
		}
		turned := was.AllColumns()
		slices.Reverse(turned)
		for _, text := range []string{
			was.Lines(was.Rows, was.AllColumns(), true), was.Lines(was.Rows, was.AllColumns(), false), was.Lines(was.Rows, turned, true),
		} {
			lines, _ := pasteText(t, nil, text, 0, 0)
			require.Len(t, lines, len(was.Rows))
			got := drawList(t, bared(t, d), lines, false)
			require.Equal(t, data(d), data(got), file)
			require.Equal(t, netsOf(d), netsOf(got), file)
		}
	}
}

func TestEndsOnTwoSheetsAreShownOnOne(t *testing.T) {
	d := load(t, "../../testdata/pickup.loom.json")
	sheets := d.Sheets()
	only := func(p *schematic.Part, on int) bool { return len(p.Views) == 1 && p.Views[0].Sheet == sheets[on].ID }
	var here, there *schematic.Part
	for _, p := range partsByName(d) {
		k := d.KindOf(p)
		switch {
		case k == nil || k.Ground != "" || len(d.PinsOf(p)) < 2:
		case here == nil && only(p, 0):
			here = p
		case there == nil && only(p, 2):
			there = p
		}
	}
	require.NotNil(t, here)
	require.NotNil(t, there)
	line := WireLine{lineFrom: here.Name, lineFromPin: d.PinsOf(here)[0].Name, lineTo: there.Name, lineToPin: d.PinsOf(there)[0].Name}
	got := CheckWires(d, []WireLine{line}, false)[0]
	require.ErrorContains(t, got.Err, "no sheet shows both")
	got = CheckWires(d, []WireLine{line}, true)[0]
	require.NoError(t, got.Err)
	assert.Contains(t, got.Note, "is shown on sheet")
	after := drawList(t, d, []WireLine{line, {lineFrom: here.Name, lineFromPin: d.PinsOf(here)[1].Name, lineTo: there.Name, lineToPin: d.PinsOf(there)[1].Name}}, true)
	assert.Equal(t, len(here.Views)+len(there.Views)+1, len(after.Part(here.ID).Views)+len(after.Part(there.ID).Views), "one symbol more serves both wires")
}

func TestCellsForTheTableOfWiresBecomeALine(t *testing.T) {
	lines, err := WireLines([][]string{{"F3.1", "M1.2", "RD"}}, 1)
	require.NoError(t, err)
	assert.Equal(t, []WireLine{{lineFrom: "F3.1", lineTo: "M1.2", LineColour: "RD"}}, lines)
	lines, err = WireLines([][]string{{"To", "From"}, {"M1.2", "F3.1"}}, 5)
	require.NoError(t, err)
	assert.Equal(t, []WireLine{{lineFrom: "F3.1", lineTo: "M1.2"}}, lines)
	_, err = WireLines([][]string{{"x", "y"}}, len(wireColumns())-1)
	require.ErrorContains(t, err, "columns are left")
}
