package table

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// The fan draws 16 A through fuse, relay and ground stud (the figures of the
// example); what goes through a splice is what comes in, not what stays there.
func TestPartCellsSayWhatTheDrawingSays(t *testing.T) {
	d := load(t, fan)
	tab := Parts(facts(d, "Fan on"))
	require.Len(t, tab.Rows, d.Len(schematic.TypePart))
	for _, c := range []struct{ part, col, want string }{
		{"F2", "kind", "Blade fuse"}, {"F2", "value", "25 A"}, {"F2", "purpose", "fan"},
		{"K1", "value", "40 A by default"}, {"M1", "value", "16 A"}, {"M1", "values", "stall current 48 A"},
		{"GND1", "value", "0.5 mΩ by default"}, {"S1", "pins", "3 of 3"}, {"S1", "sheet", "Radiator fan"}, {"F2", "built", "planned"},
	} {
		assert.Equal(t, c.want, tab.cell(t, c.part, c.col), "%s %s", c.part, c.col)
	}
	amp := func(part string) float64 {
		v, err := unit.Parse(unit.Amp, tab.cell(t, part, "current"))
		require.NoError(t, err)
		return v
	}
	assert.InDelta(t, amp("F2"), amp("M1"), 0.2)
	assert.Greater(t, amp("F1"), amp("M1"), "the relay's coil draws on top")
	assert.Greater(t, amp("SP1"), 0.01, "a splice carries what comes in")
	pins := Pins(facts(d, "Fan on"))
	for _, part := range []string{"SP1", "F2"} {
		i := slices.IndexFunc(pins.Rows, func(r Row) bool { return r.Key == tab.row(t, part).Key })
		assert.Equal(t, tab.cell(t, part, "current"), pins.Text(pins.Rows[i], pins.At("current")), "a pin of %s says the same", part)
	}
	assert.Equal(t, []Row{tab.row(t, "M1")}, tab.Arrange(View{Filter: "radiator 48 a"}))
	assert.Equal(t, []Row{tab.row(t, "F3")}, tab.Arrange(View{Only: map[schematic.Key]bool{tab.row(t, "F3").Key: true}}))
	assert.Len(t, tab.Arrange(View{Sheet: d.Sheets()[0].ID}), len(tab.Rows))
	rows := tab.Arrange(View{Sorted: true, By: tab.At("value"), Down: true, Filter: "fuse"})
	assert.Equal(t, []string{"F1", "F2", "F3"}, []string{tab.NameOf(rows[0]), tab.NameOf(rows[1]), tab.NameOf(rows[2])}, "by amperes, not by letters")
}

func TestThePartIsKnownByItsMainFigure(t *testing.T) {
	lib, err := catalog.Default()
	require.NoError(t, err)
	for kind, want := range map[string]string{"fuse-mini": "amp", "lamp": "watt", "starter-motor": "amp", "relay-change-over": "rated_amp",
		"switch-ignition": "rated_amp", "battery": "volt", "alternator": "limit_amp", "resistor": "ohm", "ground-body": "joint_ohm",
		"connector-plug": "rated_amp", "solenoid-valve": "ohm", "fusible-link": "amp", "diode": "volt"} {
		k := lib.Kind(kind)
		require.NotNil(t, k, kind)
		p, ok := k.MainParam()
		assert.True(t, ok, kind)
		assert.Equal(t, want, p.Name, kind)
	}
	_, ok := lib.Kind("stud").MainParam()
	assert.False(t, ok)
}

func TestTypingIntoAPart(t *testing.T) {
	for _, c := range []struct{ part, col, text, want, err, why string }{
		{"F2", "value", "30", "30 A", "", "a bare number is in amperes"},
		{"F2", "value", "7,5 A", "7.5 A", "", "decimal comma"},
		{"F2", "value", "", "not known", "", "a fuse without a rating is not assessed"},
		{"F2", "value", "much", "", "cannot read", ""},
		{"K1", "value", "30 A", "30 A", "", "a default is overridden"},
		{"F2", "purpose", " fan, left ", "fan, left", "", "trimmed"},
		{"F2", "kind", "maxi blade fuse", "Maxi blade fuse", "", "its title, in any case"},
		{"F2", "kind", "SF51", "Bolted fuse SF51", "", "a word only one kind has"},
		{"F2", "kind", "fuse", "", "part kinds are called", "which of them?"},
		{"F2", "kind", "toaster", "", "no part kind is called", ""},
		{"M1", "kind", "Blade fuse", "", "still has", "its pins are others"},
		{"F2", "kind", "Fuse block, blade", "", "place a new part", "a fuse block counts its outputs"},
		{"F2", "loom", "front", "", "there is no loom", ""},
		{"F2", "node", "x", "", "belongs to no loom", ""},
		{"F2", "built", "fit", "fitted", "", "the beginning of a word will do"},
		{"F2", "part", "F1", "", "", "taken"},
		{"F2", "current", "3 A", "", "cannot be typed in", "it follows from the drawing"},
	} {
		t.Run(c.col+" "+c.text, func(t *testing.T) {
			s := session(t, load(t, fan))
			tab, err := put(t, s, Parts, c.part, c.col, c.text)
			if c.col == "part" {
				require.Error(t, err)
				return
			}
			if c.err != "" {
				require.ErrorContains(t, err, c.err, c.why)
				return
			}
			require.NoError(t, err, c.why)
			assert.Equal(t, c.want, tab.cell(t, c.part, c.col), c.why)
		})
	}
}

func TestPartsGoIntoLooms(t *testing.T) {
	s := session(t, load(t, fan))
	require.NoError(t, s.Do("loom", func(tx *edit.Tx) error {
		if err := edit.AddLoom(tx, "front"); err != nil {
			return err
		}
		k, _ := tx.Doc().Named("front")
		return edit.AddSegment(tx, k.ID)
	}))
	tab, err := put(t, s, Parts, "M1", "loom", "FRONT")
	require.NoError(t, err)
	assert.Equal(t, "front", tab.cell(t, "M1", "loom"))
	_, err = put(t, s, Parts, "M1", "node", "nose")
	require.ErrorContains(t, err, `no node "nose": write one of node 1, node 2`)
	tab, err = put(t, s, Parts, "M1", "node", "node 2")
	require.NoError(t, err)
	assert.Equal(t, "node 2", tab.cell(t, "M1", "node"))
}

// A switch that becomes another one: states say nothing of positions it lacks.
func TestAnotherKindKeepsWhatBothHave(t *testing.T) {
	lib, err := catalog.Default()
	require.NoError(t, err)
	tx := edit.Begin(schematic.New(lib), nil)
	require.NoError(t, edit.AddSheet(tx, "1"))
	sheet := tx.Doc().Sheets()[0].ID
	require.NoError(t, edit.PlacePart(tx, "switch-rotary", sheet, geom.Pt(1000, 1000), geom.Orient{}))
	require.NoError(t, edit.PlacePart(tx, "fuse-mini", sheet, geom.Pt(2000, 1000), geom.Orient{}))
	rotary := lib.Kind("switch-rotary")
	last := rotary.Positions[len(rotary.Positions)-1]
	k, _ := tx.Doc().Named("S1")
	require.NoError(t, edit.AddState(tx, "run", schematic.EngineOff))
	require.NoError(t, edit.Switch(tx, tx.Doc().States()[0].ID, k.ID, "", last))
	require.NoError(t, edit.SetPart(tx, k.ID, func(p *schematic.Part) { p.Values = map[string]float64{"rated_amp": 8} }))
	require.NoError(t, edit.ChangeKind(tx, k.ID, "switch-toggle"))
	assert.Empty(t, tx.Doc().States()[0].Set, "a toggle switch has no position %q", last)
	assert.Equal(t, 8.0, tx.Doc().Part(k.ID).Values["rated_amp"])
	assert.Empty(t, schematic.Check(tx.Doc()))
}
