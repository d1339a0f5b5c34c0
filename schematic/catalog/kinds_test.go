package catalog

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/uuid"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

var update = flag.Bool("update", false, "write the golden files")

func TestKindsGolden(t *testing.T) {
	var b strings.Builder
	for _, g := range Groups(library(t)) {
		fmt.Fprintf(&b, "%s\n", g.Name)
		for _, k := range g.Kinds {
			var pins []string
			for _, p := range k.Pins {
				pins = append(pins, p.Name)
			}
			fmt.Fprintf(&b, "  %-26s %-4s %s [%s]\n", k.Name, k.Prefix, k.Title, strings.Join(pins, " "))
		}
	}
	golden := filepath.Join("testdata", "kinds.golden")
	if *update {
		require.NoError(t, os.WriteFile(golden, []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	require.Equal(t, string(want), b.String(), "part kinds changed: read the difference, then run with -update")
}

func TestKindsAreComplete(t *testing.T) {
	titles := map[string]string{}
	eachKind(t, func(t *testing.T, k *schematic.Kind) {
		require.Empty(t, Validate(k))
		require.NotEmpty(t, k.Help, "help text")
		require.NotEmpty(t, k.Words, "words to find it by")
		require.Contains(t, order, k.Group, "a group of the tray")
		require.Empty(t, titles[k.Title], "two kinds with the title %q", k.Title)
		titles[k.Title] = k.Name
		require.Contains(t, []string{"A", "B", "E", "F", "G", "H", "K", "M", "P", "Q", "R", "S", "T", "V", "X", "Y", "GND", "SP", "TP"}, k.Prefix,
			"designation letters of the package comment")
		require.Equal(t, strings.ToLower(k.Name), k.Name)
	})
}

// What a builder needs to wire a vehicle from the first day.
func TestKindsNeededFromTheStart(t *testing.T) {
	lib := library(t)
	for _, name := range strings.Fields(`battery alternator
		fuse-mini fuse-regular fuse-maxi fuse-sf30 fuse-sf51 fusible-link circuit-breaker fuse-block-regular stud bus-bar
		relay-make relay-change-over relay-make-diode relay-make-resistor relay-make-apart solenoid-continuous solenoid-intermittent solenoid-latching starter-motor starter-relay
		switch-toggle switch-change-over switch-push-make switch-push-break switch-rotary switch-ignition switch-illuminated switch-pressure switch-thermo battery-isolator
		connector-plug connector-receptacle connector-header ring-terminal splice ground-body ground-engine ground-frame
		load-resistive lamp lamp-two-filament lamp-led motor radiator-fan fuel-pump heater solenoid-valve injector-high injector-low ignition-coil ignition-coil-driver horn glow-plug indicator-led
		idle-valve boost-valve purge-valve sensor-coolant sensor-air-temperature sensor-crank-hall sensor-cam-hall sensor-throttle sensor-pressure sensor-knock sensor-lambda switch-oil-pressure sensor-wheel-speed sensor-crank-coil
		gauge-bus instrument control-unit diode diode-suppression resistor terminator test-point box load-two-pin load-three-pin`) {
		require.NotNil(t, lib.Kind(name), name)
	}
}

// Every fixed pin must stand where a line of the symbol ends, or the wire
// would end in the air.
func TestLeadsReachTheirPins(t *testing.T) {
	eachKind(t, func(t *testing.T, k *schematic.Kind) {
		if k.OwnPins {
			return
		}
		for _, p := range k.Pins {
			s, ok := k.Section(p.Section)
			require.True(t, ok)
			require.True(t, slices.ContainsFunc(s.Shapes, func(sh schematic.Shape) bool {
				switch sh.Type {
				case "line":
					return sh.Points[0] == p.At || sh.Points[len(sh.Points)-1] == p.At
				case "circle":
					return sh.Points[0] == p.At
				}
				return false
			}), "pin %s at %v has no lead", p.Name, p.At)
		}
	})
}

func TestSymbolsAreOfSensibleSize(t *testing.T) {
	eachKind(t, func(t *testing.T, k *schematic.Kind) {
		d, p := place(k)
		for _, v := range p.Views {
			r := d.Reach(p, v)
			require.LessOrEqual(t, r.Width(), 500, "wider than 50 mm")
			require.LessOrEqual(t, r.Height(), 750, "higher than 75 mm")
			if v.Section == "" && k.Sections[0].Form == "" {
				require.True(t, geom.RectOf(geom.Pt(-150, -150), geom.Pt(150, 150)).Encloses(r.Add(v.At.Neg())), "%v is far from the symbol's origin", r)
			}
			s, _ := k.Section(v.Section)
			if s.TagSide == "right" {
				body := d.LocalBody(p, v.Section)
				require.Greater(t, s.Tag.X, body.Max.X-30, "the designation stands in the symbol")
				require.NotZero(t, s.Tag)
			}
		}
	})
}

// place puts one part of the kind on a sheet, with every section shown.
func place(k *schematic.Kind) (*schematic.Doc, *schematic.Part) {
	sheet := &schematic.Sheet{ID: uuid.New(), Name: "1"}
	p := New(k, k.Prefix+"1")
	p.ID = uuid.New()
	for i, s := range k.Sections {
		p.Views = append(p.Views, schematic.View{Key: fmt.Sprint(i), Sheet: sheet.ID, Section: s.Name, At: geom.Pt(500+500*i, 500)})
	}
	d := schematic.New(schematic.NewLibrary(k)).With(schematic.Put{Key: sheet.Key(), Item: sheet}, schematic.Put{Key: p.Key(), Item: p})
	return d, p
}

func TestNewPartsAreSound(t *testing.T) {
	eachKind(t, func(t *testing.T, k *schematic.Kind) {
		d, p := place(k)
		require.Empty(t, schematic.Check(d))
		shown := 0
		for _, v := range p.Views {
			for _, pp := range d.PlacedPins(p, v) {
				shown++
				require.Equal(t, pp.At, pp.At.Snap(geom.Grid), "pin %s is off the grid", pp.Pin.Name)
			}
		}
		require.Len(t, d.PinsOf(p), shown, "every pin is shown once")
	})
}

// A trace runs through kinds marked so; they must hold nothing that ends it.
func TestPassingKindsOnlyPass(t *testing.T) {
	passing := []schematic.ElementType{schematic.ElemJoint, schematic.ElemContact, schematic.ElemFuse, schematic.ElemDiode}
	eachKind(t, func(t *testing.T, k *schematic.Kind) {
		all := slices.Clone(k.Elements)
		for _, r := range k.Roles {
			all = append(all, r.Elements...)
		}
		for _, e := range all {
			if k.Passes {
				require.Contains(t, passing, e.Type, e.Name)
			}
			if e.Type == schematic.ElemFuse {
				require.NotEmpty(t, k.Family, "fuses name their family")
			}
		}
	})
}

// A fixed pin without an element would be invisible to the computation.
func TestFixedPinsAreConnectedInside(t *testing.T) {
	eachKind(t, func(t *testing.T, k *schematic.Kind) {
		if k.OwnPins || len(k.Pins) == 1 && len(k.Elements) == 0 {
			return // cavities, splice, test point
		}
		for _, p := range k.Pins {
			require.True(t, slices.ContainsFunc(k.Elements, func(e schematic.Element) bool { return e.A == p.Name || e.B == p.Name }), "pin %s", p.Name)
		}
	})
}

func TestGroundStudsJoinTheirMetal(t *testing.T) {
	lib := library(t)
	for _, g := range []string{"body", "engine", "frame"} {
		k := lib.Kind("ground-" + g)
		require.Equal(t, g, k.Ground)
		require.Equal(t, schematic.ElemJoint, k.Elements[0].Type)
		require.Equal(t, [2]string{"1", "#metal"}, [2]string{k.Elements[0].A, k.Elements[0].B})
	}
}
