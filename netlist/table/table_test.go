package table

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/schematic/loomfile"
	"loomwright/schematic/sample"
)

func load(t testing.TB, path string) *schematic.Doc {
	t.Helper()
	lib, err := catalog.Default()
	require.NoError(t, err)
	d, err := loomfile.Load(path, lib)
	require.NoError(t, err)
	return d
}

// facts computes everything a table can show, in the named state.
func facts(d *schematic.Doc, state string) Facts {
	n := netlist.Build(d)
	sols := n.SolveAll()
	f := Facts{Doc: d, Findings: check.Run(n, sols), Solution: sols[0]}
	for _, s := range sols {
		if s.State != nil && s.State.Name == state {
			f.Solution = s
		}
	}
	return f
}

const fan = "../../testdata/fan.loom.json"

func (t *Table) row(tb testing.TB, name string) Row {
	tb.Helper()
	for _, r := range t.Rows {
		if t.NameOf(r) == name {
			return r
		}
	}
	require.Fail(tb, "no row", name)
	return Row{}
}

func (t *Table) cell(tb testing.TB, name, col string) string {
	tb.Helper()
	require.GreaterOrEqual(tb, t.At(col), 0, col)
	return t.Text(t.row(tb, name), t.At(col))
}

// put types into a cell in a session and returns the table of what comes of it.
func put(tb testing.TB, s *edit.Session, make func(Facts) *Table, name, col, text string) (*Table, error) {
	tb.Helper()
	t := make(Facts{Doc: s.Doc()})
	f, err := t.Edit(t.row(tb, name), t.At(col), text)
	if err != nil {
		return t, err
	}
	if f != nil {
		err = s.Do("edit", f)
	}
	return make(Facts{Doc: s.Doc()}), err
}

func session(tb testing.TB, d *schematic.Doc) *edit.Session {
	s := edit.NewSession(d, nil, nil)
	s.Verify = func(d *schematic.Doc) error {
		if p := schematic.Check(d); len(p) > 0 {
			return fmt.Errorf("%v", p)
		}
		return nil
	}
	tb.Cleanup(func() {
		for s.UndoLabel() != "" {
			require.NoError(tb, s.Undo())
		}
		require.Same(tb, d, s.Doc(), "every edit is undone to the start")
	})
	return s
}

func TestWireCellsSayWhatTheDrawingSays(t *testing.T) {
	d := load(t, fan)
	f := facts(d, "")
	tab := Wires(f)
	require.Equal(t, d.Len(schematic.TypeWire), len(tab.Rows))
	require.True(t, slices.IsSortedFunc(tab.Rows, func(a, b Row) int { return schematic.CompareNames(tab.NameOf(a), tab.NameOf(b)) }))
	for w := range d.Wires() {
		r := Row{Key: w.Key()}
		assert.Equal(t, w.Name, tab.Text(r, tab.At("wire")))
		if amp, ok := f.Solution.WireAmp(w.ID); ok && (amp > 0.01 || amp < -0.01) {
			v, err := unit.Parse(unit.Amp, tab.Text(r, tab.At("current")))
			require.NoError(t, err)
			assert.InEpsilon(t, max(amp, -amp), v, 0.02, "%s: the printed current is the computed one, rounded", w.Name)
		}
		if !w.A.Loose() {
			ref, err := PinNamed(d, tab.Text(r, tab.At("from")))
			require.NoError(t, err)
			assert.Equal(t, w.A.Ref(), ref, "what From says can be read back")
		}
	}
	// The worst finding of a wire is the first that names it.
	for _, r := range tab.Rows {
		want := ""
		for _, x := range f.Findings {
			if x.Open() && slices.Contains(x.Items, r.Key) {
				want = x.Severity.String() + ": " + x.Rule
				break
			}
		}
		assert.Equal(t, want, tab.Text(r, tab.At("finding")))
	}
}

func TestPinCellsSayWhatTheDrawingSays(t *testing.T) {
	d := load(t, fan)
	f := facts(d, "")
	tab := Pins(f)
	n := 0
	for p := range d.Parts() {
		n += len(d.PinsOf(p))
	}
	require.Len(t, tab.Rows, n)
	for _, r := range tab.Rows {
		var names []string
		for _, w := range d.WiresAt(r.ref()) {
			names = append(names, w.Name)
		}
		slices.SortFunc(names, schematic.CompareNames)
		assert.Equal(t, strings.Join(names, ", "), tab.Text(r, tab.At("wire")), tab.NameOf(r))
		if v, ok := f.Solution.VoltAt(f.Solution.Netlist.NodeOf(r.ref())); ok && v > 1 {
			got, err := unit.Parse(unit.Volt, tab.Text(r, tab.At("volts")))
			require.NoError(t, err)
			assert.InEpsilon(t, v, got, 0.01)
		}
	}
	one := PinsOf(f, tab.Rows[0].Key.ID)
	for _, r := range one.Rows {
		assert.Equal(t, tab.Rows[0].Key, r.Key)
	}
}

func TestNothingIsClaimedWithoutASolution(t *testing.T) {
	d := load(t, fan)
	for _, tab := range []*Table{Wires(Facts{Doc: d}), Pins(Facts{Doc: d})} {
		for _, id := range []string{"current", "volts", "loss", "net", "finding"} {
			if c := tab.At(id); c >= 0 {
				assert.Empty(t, tab.Text(tab.Rows[0], c), id)
			}
		}
	}
}

func TestTypingIntoAWire(t *testing.T) {
	for _, c := range []struct{ col, text, want, err, why string }{
		{"size", "2,5", "2.5 mm²", "", "decimal comma, bare decimals are metric"},
		{"size", "AWG 12", "AWG 12", "", "another system"},
		{"size", "18", "", "write 18 mm², AWG 18 or SAE 18", "a bare whole number is refused, as in the details"},
		{"size", "", "", "", "empty is unknown"},
		{"colour", "bu/wh", "BU/WH", "", "base and tracer"},
		{"colour", "purple", "", "not a wire colour", ""},
		{"length", "1.2 m", "1200 mm", "", "held in mm"},
		{"length", "2 ft", "609.6 mm", "", ""},
		{"length", "-3", "", "cannot read", ""},
		{"circuit", "  horn ", "horn", "", "trimmed"},
		{"built", "cu", "cut", "", "the beginning of a word will do"},
		{"built", "glued", "", "not a build step", ""},
		{"wire", "W99", "", "", "renamed: the row is found by its ID below"},
		{"current", "3 A", "", "cannot be typed in", "it follows from the drawing"},
		{"loom", "nowhere", "", "there is no loom", ""},
		{"from", "X77.1", "", "names no pin", ""},
		{"from", "loose", "loose", "", "lets the end hang"},
	} {
		t.Run(c.col+" "+c.text, func(t *testing.T) {
			s := session(t, load(t, fan))
			first := Wires(Facts{Doc: s.Doc()})
			r := first.Rows[0]
			tab, err := put(t, s, Wires, first.NameOf(r), c.col, c.text)
			if c.err != "" {
				require.ErrorContains(t, err, c.err, c.why)
				return
			}
			require.NoError(t, err, c.why)
			want := c.want
			if c.col == "wire" {
				want = "W99"
			}
			if c.col == "length" && c.want == "" {
				return
			}
			assert.Equal(t, want, tab.Text(r, tab.At(c.col)), c.why)
		})
	}
}

func TestTypingWhereAWireGoes(t *testing.T) {
	d := load(t, fan)
	s := session(t, d)
	tab := Wires(Facts{Doc: d})
	var w *schematic.Wire
	for _, r := range tab.Rows {
		if x := tab.wire(r); !x.A.Loose() && !x.B.Loose() {
			w = x
		}
	}
	require.NotNil(t, w)
	// The other end of some other wire on the sheet is a pin that is shown there.
	var to string
	for _, r := range tab.Rows {
		if x := tab.wire(r); x.Sheet == w.Sheet && !x.B.Loose() && x.B.Ref() != w.A.Ref() && x.B.Ref() != w.B.Ref() {
			to = tab.endText(x.B)
		}
	}
	require.NotEmpty(t, to)
	after, err := put(t, s, Wires, w.Name, "to", to)
	require.NoError(t, err)
	assert.Equal(t, to, after.cell(t, w.Name, "to"))
}

func TestTypingIntoAPin(t *testing.T) {
	lib, err := catalog.Default()
	require.NoError(t, err)
	start := schematic.New(lib)
	tx := edit.Begin(start, nil)
	require.NoError(t, edit.AddSheet(tx, "1"))
	sheet := tx.Doc().Sheets()[0].ID
	for i, kind := range []string{"connector-header", "fuse-mini"} {
		require.NoError(t, edit.PlacePart(tx, kind, sheet, geom.Pt(1000+1000*i, 1000), geom.Orient{}))
	}
	s := session(t, tx.Doc())
	tab, err := put(t, s, Pins, "X1 pin 1", "goes-to", "F1.1")
	require.NoError(t, err)
	assert.Equal(t, "W1", tab.cell(t, "X1 pin 1", "wire"), "a wire is drawn")
	assert.Equal(t, "F1.1", tab.cell(t, "X1 pin 1", "goes-to"))
	assert.Equal(t, "X1.1", tab.cell(t, "F1 pin 1", "goes-to"))
	tab, err = put(t, s, Pins, "X1 pin 1", "goes-to", "f1 2")
	require.NoError(t, err)
	assert.Equal(t, "F1.2", tab.cell(t, "X1 pin 1", "goes-to"), "the wire there is, is led elsewhere")
	assert.Empty(t, tab.cell(t, "F1 pin 1", "wire"))
	tab, err = put(t, s, Pins, "X1 pin 1", "colour", "rd")
	require.NoError(t, err)
	assert.Equal(t, "RD", tab.cell(t, "F1 pin 2", "colour"))
	tab, err = put(t, s, Pins, "X1 pin 1", "terminal", "crimp 1.5")
	require.NoError(t, err)
	assert.Equal(t, "crimp 1.5", tab.cell(t, "X1 pin 1", "terminal"))
	assert.Empty(t, tab.cell(t, "F1 pin 2", "terminal"), "the other end is another terminal")
	tab, err = put(t, s, Pins, "X1 pin 1", "name", "supply")
	require.NoError(t, err)
	assert.Equal(t, "supply", tab.cell(t, "X1 pin 1", "name"))
	tab, err = put(t, s, Pins, "X1 pin 1", "pin", "A1")
	require.NoError(t, err)
	assert.Equal(t, "W1", tab.cell(t, "X1 pin A1", "wire"), "the wire follows the pin's name")
	_, err = put(t, s, Pins, "F1 pin 1", "name", "feed")
	require.ErrorContains(t, err, "those of its kind")
	_, err = put(t, s, Pins, "F1 pin 1", "colour", "BK")
	require.ErrorContains(t, err, "no wire is at F1 pin 1")
}

func TestArrangeSortsAndFilters(t *testing.T) {
	d := load(t, fan)
	tab := Wires(facts(d, ""))
	for col := range tab.Columns {
		for _, down := range []bool{false, true} {
			rows := tab.Arrange(View{Sorted: true, By: col, Down: down})
			require.Len(t, rows, len(tab.Rows))
			c := tab.Columns[col]
			for i := 1; i < len(rows); i++ {
				if c.value != nil {
					a, okA := c.value(tab, rows[i-1])
					b, okB := c.value(tab, rows[i])
					require.False(t, okB && !okA, "%s: what is not known comes last", c.Title)
					if okA && okB {
						require.False(t, !down && a > b || down && a < b, "%s: %g before %g", c.Title, a, b)
					}
					continue
				}
				a, b := tab.Text(rows[i-1], col), tab.Text(rows[i], col)
				require.False(t, b != "" && a == "", "%s: empty cells come last", c.Title)
				if n := schematic.CompareNames(a, b); a != "" && b != "" {
					require.False(t, !down && n > 0 || down && n < 0, "%s: %q before %q", c.Title, a, b)
				}
			}
		}
	}
	r := tab.Rows[3]
	found := tab.Arrange(View{Filter: strings.ToLower(tab.NameOf(r)) + " " + tab.Text(r, tab.At("from"))})
	assert.Contains(t, found, r)
	assert.Empty(t, tab.Arrange(View{Filter: "zzz"}))
	assert.Equal(t, []Row{r}, tab.Arrange(View{Only: map[schematic.Key]bool{r.Key: true}}))
	pins := Pins(Facts{Doc: d})
	for _, p := range pins.Arrange(View{Only: map[schematic.Key]bool{r.Key: true}}) {
		assert.Contains(t, []schematic.PinRef{tab.wire(r).A.Ref(), tab.wire(r).B.Ref()}, p.ref(), "the pins at a selected wire")
	}
	for _, s := range d.Sheets() {
		for _, x := range tab.Arrange(View{Sheet: s.ID}) {
			assert.Equal(t, s.ID, tab.wire(x).Sheet)
		}
	}
}

func TestManyCellsAreOneEditOrNone(t *testing.T) {
	d := load(t, fan)
	s := session(t, d)
	tab := Wires(Facts{Doc: d})
	block, err := Block("1.5 mm²\t2 m\n2,5\t30 cm\n")
	require.NoError(t, err)
	cols := []int{tab.At("size"), tab.At("length")}
	cells, err := tab.Fill(block, tab.Rows, 1, nil, cols, 0)
	require.NoError(t, err)
	f, err := tab.Change(cells)
	require.NoError(t, err)
	require.NoError(t, s.Do("paste", f))
	after := Wires(Facts{Doc: s.Doc()})
	assert.Equal(t, "1.5 mm²", after.Text(tab.Rows[1], tab.At("size")))
	assert.Equal(t, "300 mm", after.Text(tab.Rows[2], tab.At("length")))
	require.NoError(t, s.Undo())
	require.Same(t, d, s.Doc(), "one step")

	cells[3].Text = "three feet"
	_, err = tab.Change(cells)
	require.ErrorContains(t, err, tab.NameOf(tab.Rows[2])+", Length: cannot read", "the error names the cell")

	cells, err = tab.Fill([][]string{{"BU"}}, tab.Rows, 0, tab.Rows[:4], []int{tab.At("colour")}, 0)
	require.NoError(t, err)
	require.Len(t, cells, 4, "one copied cell goes to all rows chosen")
	_, err = tab.Fill(make([][]string, len(tab.Rows)+1), tab.Rows, 0, nil, cols, 0)
	require.ErrorContains(t, err, "rows are left")
	_, err = tab.Fill([][]string{{"a", "b", "c"}}, tab.Rows, 0, nil, cols, 0)
	require.ErrorContains(t, err, "columns are left")
}

// Two rows swap their designations in one paste; one of them alone is refused.
func TestDesignationsAreSwappedInOnePaste(t *testing.T) {
	d := load(t, fan)
	for _, tab := range []*Table{Wires(Facts{Doc: d}), Parts(Facts{Doc: d})} {
		s := session(t, d)
		a, b := tab.Text(tab.Rows[0], 0), tab.Text(tab.Rows[1], 0)
		cells, err := tab.Fill([][]string{{b}, {a}}, tab.Rows, 0, nil, []int{0}, 0)
		require.NoError(t, err)
		f, err := tab.Change(cells)
		require.NoError(t, err)
		require.NoError(t, s.Do("paste", f))
		assert.Equal(t, []string{b, a}, []string{schematic.NameOf(s.Doc().Get(tab.Rows[0].Key)), schematic.NameOf(s.Doc().Get(tab.Rows[1].Key))})
		f, err = tab.Change(cells[:1])
		require.NoError(t, err)
		require.ErrorContains(t, session(t, d).Do("paste", f), a+": "+b+" is taken")
	}
}

// The same texts typed in again change nothing.
func TestCopiedRowsPastedBackChangeNothing(t *testing.T) {
	d := load(t, fan)
	for _, tab := range []*Table{Wires(facts(d, "")), Pins(facts(d, ""))} {
		block, err := Block(tab.Lines(tab.Rows, tab.AllColumns(), false))
		require.NoError(t, err)
		require.Len(t, block, len(tab.Rows))
		cells, err := tab.Fill(block, tab.Rows, 0, nil, tab.AllColumns(), 0)
		require.NoError(t, err)
		f, err := tab.Change(cells)
		require.NoError(t, err)
		require.Nil(t, f)
	}
}

func TestBlocksAsSpreadsheetsCopyThem(t *testing.T) {
	for _, c := range []struct {
		in   string
		want [][]string
		why  string
	}{
		{"1\tRD\n2\tBK\n", [][]string{{"1", "RD"}, {"2", "BK"}}, "tabs"},
		{"1\tRD\r\n\r\n2\tBK", [][]string{{"1", "RD"}, {"2", "BK"}}, "line ends of other systems, empty lines"},
		{"1;RD;0,75\n2;BK;1,5", [][]string{{"1", "RD", "0,75"}, {"2", "BK", "1,5"}}, "semicolons with decimal commas"},
		{"1,RD\n2,BK", [][]string{{"1", "RD"}, {"2", "BK"}}, "commas"},
		{"0,75", [][]string{{"0,75"}}, "one number with a decimal comma"},
		{"0,75\n1,5", [][]string{{"0,75"}, {"1,5"}}, "a column of such"},
		{"fan, left", [][]string{{"fan, left"}}, "one text with a comma"},
		{"1,\"fan, left\"\n2,horn", [][]string{{"1", "fan, left"}, {"2", "horn"}}, "quotes as in RFC 4180"},
		{"a\t\"b\tc\"", [][]string{{"a", "b\tc"}}, "a tab within quotes"},
		{"", nil, "nothing"},
	} {
		got, err := Block(c.in)
		require.NoError(t, err, c.why)
		assert.Equal(t, c.want, got, c.why)
	}
	_, err := Block(strings.Repeat("x", maxBlock+1))
	require.Error(t, err)
}

func FuzzBlock(f *testing.F) {
	f.Add("1\tRD\n2,\"x")
	f.Fuzz(func(t *testing.T, s string) {
		if block, err := Block(s); err == nil {
			for _, line := range block {
				require.NotEmpty(t, line)
			}
		}
	})
}

func BenchmarkSortTenThousandWires(b *testing.B) {
	lib, err := catalog.Default()
	require.NoError(b, err)
	d := sample.Harness(lib, 10_000, 1)
	tab := Wires(Facts{Doc: d})
	for b.Loop() {
		tab.Arrange(View{Sorted: true, By: tab.At("size"), Filter: "gn"})
	}
}

func BenchmarkTableOfTenThousandWires(b *testing.B) {
	lib, err := catalog.Default()
	require.NoError(b, err)
	d := sample.Harness(lib, 10_000, 1)
	for b.Loop() {
		Wires(Facts{Doc: d})
	}
}
