package check_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/google/uuid"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// onSheet draws a plan on one sheet, its parts in rows.
func onSheet(d *schematic.Doc) *schematic.Doc {
	sheet := &schematic.Sheet{ID: uuid.NewSHA1(uuid.Nil, []byte("sheet")), Name: "S", Width: 9000, Height: 6000}
	puts := []schematic.Put{{Key: sheet.Key(), Item: sheet}}
	i := 0
	var parts []*schematic.Part
	for p := range d.Parts() {
		parts = append(parts, p)
	}
	for _, p := range parts {
		c := *p
		var sections []schematic.Section
		if k := d.KindOf(p); k != nil {
			sections = k.Sections
		}
		for n, s := range sections {
			v := schematic.View{Sheet: sheet.ID, Section: s.Name, At: geom.Pt(600+800*(i%9), 600+800*(i/9))}
			if n > 0 {
				v.Key = strconv.Itoa(n)
			}
			c.Views = append(c.Views, v)
			i++
		}
		puts = append(puts, schematic.Put{Key: c.Key(), Item: &c})
	}
	for w := range d.Wires() {
		c := *w
		c.Sheet = sheet.ID
		puts = append(puts, schematic.Put{Key: c.Key(), Item: &c})
	}
	return d.With(puts...)
}

// sharedFeed is a splice behind a strong fuse with a fitting wire and a thin one
// on it.
const sharedFeed = `ambient 30
G1 battery
F1 fuse-regular amp=40
SP1 splice
E1 load-two-pin amp=25
E2 lamp watt=21
W1 G1.+ F1.1 10mm2 100
W2 F1.2 SP1.1 10mm2 500
W3 SP1.1 E1.+ 10mm2 1000
W5 E1.- G1.- 10mm2 500
W4 SP1.1 E2.1 0.75mm2 2000
W6 E2.2 G1.- 1mm2 500
state on off`

// Each plan has one finding of the rule with one remedy that draws something:
// put in, it takes that finding away and leaves a sound drawing.
func TestRemediesThatDraw(t *testing.T) {
	bare := &schematic.Kind{Name: "bare-led", Prefix: "H", Sections: []schematic.Section{{}},
		Pins:     []schematic.Pin{{Name: "+", At: geom.Pt(0, -75), Dir: "up"}, {Name: "-", At: geom.Pt(0, 75), Dir: "down"}},
		Elements: []schematic.Element{{Name: "LED", Type: schematic.ElemDiode, A: "+", B: "-", Load: "indicator", Args: map[string]schematic.Arg{"volt": {Value: 2}, "ohm": {Value: 5}}}}}
	for _, c := range []struct {
		name, rule, plan, label, effect string
		drawn                           string // the new parts and wires, "F1 10" for a rating
	}{
		{"fuse near the battery", "no fuse between source and wire", `ambient 30
G1 battery
E1 lamp watt=55
W1 G1.+ E1.1 2.5mm2 2000
W2 E1.2 G1.- 2.5mm2 500
state on off`, "put a fuse of 7.5 A into W1 near G1", "after 100 mm of wire", "F1 W3"},
		{"behind a short piece the next wire gets it", "no fuse between source and wire", `ambient 30
G1 battery
SP1 splice
E1 lamp watt=55
W1 G1.+ SP1.1 2.5mm2 100
W3 SP1.1 E1.1 2.5mm2 2000
W2 E1.2 G1.- 2.5mm2 500
state on off`, "put a fuse of 7.5 A into W3 near G1", "after 160 mm of wire", "F1 W4"},
		{"in hot air the rating shrinks", "no fuse between source and wire", `ambient 85
G1 battery
E1 lamp watt=65
W1 G1.+ E1.1 2.5mm2 2000
W2 E1.2 G1.- 2.5mm2 500
state on off`, "put a fuse of 10 A into W1 near G1", "the load needs at least", "F1 W3"},
		{"a fuse before a fuse is the larger one", "no fuse between source and wire", `ambient 30
G1 battery
F1 fuse-regular amp=15
E1 lamp watt=55
W1 G1.+ F1.1 6mm2 2000
W3 F1.2 E1.1 2.5mm2 500
W2 E1.2 G1.- 2.5mm2 500
state on off`, "put a fuse of 20 A into W1 near G1", "the next fuse has 15 A", "F2 W4"},
		{"what hangs on a long wire is fused at its beginning", "load without fuse", `ambient 30
G1 battery
E1 lamp watt=55
W1 G1.+ E1.1 2.5mm2 150
W2 E1.2 G1.- 2.5mm2 500
state on off`, "put a fuse of 7.5 A into W1 near G1", "", "F1 W3"},
		{"a thin branch on a strong feed", "fuse too large for wire", sharedFeed, "put a fuse of 4 A into W4 near SP1", "the wires behind bear at most 16 A", "F2 W7"},
		{"a dead short on a thin branch", "fuse too slow for wire", sharedFeed, "put a fuse of 4 A into W4 near SP1", "", "F2 W7"},
		{"the branch begins before its switch", "fuse too large for wire", strings.Replace(sharedFeed, "W4 SP1.1 E2.1 0.75mm2 2000", "S1 switch-toggle rated_amp=10\nW4 SP1.1 S1.82 2mm2 800\nW8 S1.82a E2.1 0.75mm2 2000", 1) + " S1=on",
			"put a fuse of 4 A into W4 near SP1", "", "F2 W7"},
		{"diode across a coil", "coil without suppression", `ambient 30
G1 battery
F1 fuse-regular amp=3
K1 relay-make
A1 control-unit
A1.1 output-low
A1.2 ground
W1 G1.+ F1.1 0.75mm2 100
W2 F1.2 K1.86 0.75mm2 500
W3 K1.85 A1.1 0.75mm2 500
W4 A1.2 G1.- 0.75mm2 500
state on off A1:1=on`, "put a diode across K1 coil", "cathode at pin 86", "V1 W5 W6"},
		{"strap from the engine", "ground strap missing", `ambient 30
G1 battery
F1 fuse-regular amp=10
E1 lamp watt=21
GND1 ground-engine
GND2 ground-body
W1 G1.+ F1.1 1.5mm2 100
W2 F1.2 E1.1 1.5mm2 500
W3 E1.2 GND1.1 1.5mm2 500
W4 GND2.1 G1.- 16mm2 300
state on off`, "draw a strap from GND1 to GND2", "the engine is then joined with the body by 16 mm², as W4", "W5"},
		{"resistor before a bare LED", "indicator badly fed", `ambient 30
G1 battery
F1 fuse-regular amp=3
H1 bare-led
W1 G1.+ F1.1 0.75mm2 100
W2 F1.2 H1.+ 0.75mm2 900
W3 H1.- G1.- 0.75mm2 500
state on off`, "put a resistor of", "the LED then carries about", "R1 W4"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := onSheet(doc(t, c.plan, bare))
			require.Empty(t, schematic.Check(d))
			f := about(t, run(t, d), c.rule)
			require.NotEmpty(t, f.Fixes, f.Text)
			x := f.Fixes[0]
			assert.True(t, strings.HasPrefix(x.Label, c.label), x.Label)
			assert.Contains(t, x.Effect, c.effect)
			require.NotNil(t, x.Draw)
			sess := edit.NewSession(d, nil, nil)
			require.NoError(t, sess.Do(x.Label, x.Apply))
			require.Empty(t, schematic.Check(sess.Doc()))
			for _, g := range run(t, sess.Doc()) {
				assert.NotEqual(t, f.ID, g.ID, "%s does not mend it: %s", x.Label, g.Text)
				assert.False(t, g.Severity == check.Error || g.Rule == "diode the wrong way round" || g.Rule == "fuse overloaded", "it brings: %s", g.Text)
			}
			for _, name := range strings.Fields(c.drawn) {
				_, had := d.Named(name)
				_, has := sess.Doc().Named(name)
				assert.True(t, !had && has, "%s is drawn", name)
			}
			require.NoError(t, sess.Undo())
			assert.Same(t, d, sess.Doc(), "one step back")
		})
	}
}

// A fuse is not offered where nobody can tell which: the load is unknown, two
// sources feed the wire, or no fuse both carries the load and protects the wire.
func TestNoFuseIsOfferedWithoutKnowingWhich(t *testing.T) {
	for name, plan := range map[string]string{
		"load unknown": `G1 battery
E1 lamp
W1 G1.+ E1.1 2.5mm2 2000
W2 E1.2 G1.- 2.5mm2 500
state on off`,
		"two sources": `G1 battery
G2 battery
E1 lamp watt=55
W1 G1.+ E1.1 2.5mm2 2000
W3 G2.+ E1.1 2.5mm2 2000
W2 E1.2 G1.- 2.5mm2 500
W4 G2.- G1.- 2.5mm2 500
state on off`,
		"wire too thin for any": `G1 battery
E1 lamp watt=240
W1 G1.+ E1.1 0.5mm2 2000
W2 E1.2 G1.- 2.5mm2 500
state on off`,
	} {
		for _, f := range run(t, onSheet(doc(t, "ambient 30\n"+plan))) {
			if f.Rule == "no fuse between source and wire" || f.Rule == "load without fuse" {
				assert.Empty(t, f.Fixes, "%s: %s", name, f.Text)
			}
		}
	}
}

// A suppression diode lies against the current by design: it is not called
// reversed because a load elsewhere has no circuit.
func TestADiodeAcrossACoilIsNotCalledReversed(t *testing.T) {
	assert.Empty(t, said(t, `ambient 30
G1 battery
F1 fuse-regular amp=3
K1 relay-make
S1 switch-toggle rated_amp=5
V1 diode
E1 lamp watt=2
W1 G1.+ F1.1 0.75mm2 100
W2 F1.2 K1.86 0.75mm2 500
W3 K1.85 S1.82 0.75mm2 500
W4 S1.82a G1.- 0.75mm2 500
W5 V1.A K1.85 0.75mm2 100
W6 V1.K K1.86 0.75mm2 100
W7 F1.2 E1.1 0.75mm2 500
W8 E1.2 F1.1 0.75mm2 500
state on off S1=on`, "diode the wrong way round"))
}
