package catalog

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/assets"
	"loomwright/schematic"
	"loomwright/schematic/canon"
	"loomwright/schematic/geom"
)

// sound returns a small relay without problems, for tests to spoil.
func sound() *schematic.Kind {
	num := schematic.Some
	return &schematic.Kind{
		Name: "k", Title: "K", Group: "g", Prefix: "K", Positions: []string{"off", "on"},
		Params: []schematic.Param{{Name: "ohm", Title: "coil", Unit: "ohm", Default: num(90), Source: "a test"}, {Name: "volt", Title: "pull-in", Unit: "V"}},
		Pins:   []schematic.Pin{{Name: "86", At: geom.Pt(0, -75), Dir: "up"}, {Name: "85", At: geom.Pt(0, 75), Dir: "down"}},
		Roles:  []schematic.Role{{Name: "feed", Title: "feed", Signal: "power"}},
		Elements: []schematic.Element{
			{Name: "coil", Type: schematic.ElemCoil, A: "86", B: "85", Load: "coil", Args: map[string]schematic.Arg{"ohm": {Param: "ohm"}, "pull_in_volt": {Param: "volt"}, "drop_out_volt": {Value: 1}}},
			{Name: "contact", Type: schematic.ElemContact, A: "86", B: "#n", Coil: "coil", Break: true, Args: map[string]schematic.Arg{"ohm": {Value: 0.01}}},
			{Name: "switch", Type: schematic.ElemContact, A: "#n", B: "85", In: []string{"on"}, Args: map[string]schematic.Arg{"ohm": {Value: 0.01}}},
		},
		Sections: []schematic.Section{{Shapes: []schematic.Shape{
			{Type: "rect", Points: []geom.Point{{X: -25, Y: -14}, {X: 25, Y: 14}}, Fill: "body"},
			{Type: "arc", Points: []geom.Point{{}}, Radius: 5, Sweep: 180},
			{Type: "text", Points: []geom.Point{{}}, Text: "K", Size: 20},
		}}},
	}
}

// own returns a sound kind with own pins.
func own() *schematic.Kind {
	return &schematic.Kind{
		Name: "u", Title: "U", Group: "g", Prefix: "A", OwnPins: true,
		Pins: []schematic.Pin{{Name: "1", Role: "out", Side: "left"}},
		Roles: []schematic.Role{{Name: "out", Title: "output", Params: []schematic.Param{{Name: "on_ohm", Title: "on", Unit: "ohm"}},
			Elements: []schematic.Element{{Name: "driver", Type: schematic.ElemOutput, A: "@", B: "#gnd", Args: map[string]schematic.Arg{"ohm": {Param: "on_ohm"}, "limit_amp": {Value: 1}}}}}},
		Sections: []schematic.Section{{Form: "box"}},
	}
}

func TestValidate(t *testing.T) {
	require.Empty(t, Validate(sound()))
	require.Empty(t, Validate(own()))
	require.NotEmpty(t, Validate(nil))
	for _, tc := range []struct {
		path, text string
		spoil      func(k *schematic.Kind)
	}{
		{"name", "missing", func(k *schematic.Kind) { k.Name = " " }},
		{"prefix", "capital letters", func(k *schematic.Kind) { k.Prefix = "k1" }},
		{"duty", "continuous, intermittent", func(k *schematic.Kind) { k.Duty = "always" }},
		{"ground", "body, engine, frame", func(k *schematic.Kind) { k.Ground = "door" }},
		{"positions", "at least two", func(k *schematic.Kind) { k.Positions = []string{"on"} }},
		{"positions[1]", "twice", func(k *schematic.Kind) { k.Positions = []string{"on", "on"} }},
		{"params[0].unit", "not a unit", func(k *schematic.Kind) { k.Params[0].Unit = "kV" }},
		{"params[0].source", "needs a source", func(k *schematic.Kind) { k.Params[0].Source = "" }},
		{"params[1].name", "twice", func(k *schematic.Kind) { k.Params[1].Name = "ohm" }},
		{"params[0].title", "needs a title", func(k *schematic.Kind) { k.Params[0].Title = "" }},
		{"params[2].name", "used by no element", func(k *schematic.Kind) {
			k.Params = append(k.Params, schematic.Param{Name: "x", Title: "x", Unit: "V"})
		}},
		{"pins[0].section", `"back"`, func(k *schematic.Kind) { k.Pins[0].Section = "back" }},
		{"pins[0].at", "off the grid", func(k *schematic.Kind) { k.Pins[0].At.X = 10 }},
		{"pins[1].at", "less than 50 apart", func(k *schematic.Kind) { k.Pins[1].At = geom.Pt(25, -75) }},
		{"pins[1].name", "twice", func(k *schematic.Kind) { k.Pins[1].Name = "86" }},
		{"pins[0].name", "inner point", func(k *schematic.Kind) { k.Pins[0].Name = "#1" }},
		{"pins[0].dir", "down, left, right, up", func(k *schematic.Kind) { k.Pins[0].Dir = "north" }},
		{"pins[0].role", `"gone"`, func(k *schematic.Kind) { k.Pins[0].Role = "gone" }},
		{"pins", "at least one pin", func(k *schematic.Kind) { k.Pins = nil }},
		{"roles[0].signal", "power", func(k *schematic.Kind) { k.Roles[0].Signal = "loud" }},
		{"roles[0]", "share the elements", func(k *schematic.Kind) { k.Roles[0].Elements = k.Elements[:1] }},
		{"elements[0].type", "not an element type", func(k *schematic.Kind) { k.Elements[0].Type = "magic" }},
		{"elements[0].a", "neither a pin", func(k *schematic.Kind) { k.Elements[0].A = "99" }},
		{"elements[0].b", "neither a pin", func(k *schematic.Kind) { k.Elements[0].B = "#" }},
		{"elements[0].b", "both ends", func(k *schematic.Kind) { k.Elements[0].B = "86" }},
		{"elements[0].args", "coil needs ohm", func(k *schematic.Kind) { delete(k.Elements[0].Args, "ohm") }},
		{"elements[0].args.watt", "takes no watt", func(k *schematic.Kind) { k.Elements[0].Args["watt"] = schematic.Arg{Value: 1} }},
		{"elements[0].args.ohm", "not declared", func(k *schematic.Kind) { k.Elements[0].Args["ohm"] = schematic.Arg{Param: "r"} }},
		{"elements[0].args.ohm", `"V"`, func(k *schematic.Kind) { k.Elements[0].Args["ohm"] = schematic.Arg{Param: "volt"} }},
		{"elements[0].args.ohm", "negative", func(k *schematic.Kind) { k.Elements[0].Args["ohm"] = schematic.Arg{Value: -1} }},
		{"elements[0].args.ohm", "default of \"ohm\" is negative", func(k *schematic.Kind) { k.Params[0].Default = schematic.Some(-1) }},
		{"elements[0].load", "is a load", func(k *schematic.Kind) { k.Elements[0].Load = "" }},
		{"elements[0].load", "not known", func(k *schematic.Kind) { k.Elements[0].Load = "music" }},
		{"elements[0].feed", "only a regulator", func(k *schematic.Kind) { k.Elements[0].Feed = "86" }},
		{"elements[0].when[0]", "engine state", func(k *schematic.Kind) { k.Elements[0].When = []schematic.Engine{"flying"} }},
		{"elements[0]", "only a contact", func(k *schematic.Kind) { k.Elements[0].Break = true }},
		{"elements[1].coil", "no coil", func(k *schematic.Kind) { k.Elements[1].Coil = "switch" }},
		{"elements[1]", "either by a coil or by", func(k *schematic.Kind) { k.Elements[1].In = []string{"on"} }},
		{"elements[2]", "either by a coil or by", func(k *schematic.Kind) { k.Elements[2].In = nil }},
		{"elements[2].in[0]", `"up"`, func(k *schematic.Kind) { k.Elements[2].In = []string{"up"} }},
		{"elements[2].break", "with a coil", func(k *schematic.Kind) { k.Elements[2].Break = true }},
		{"elements[1].name", "twice", func(k *schematic.Kind) { k.Elements[1].Name = "coil" }},
		{"sections", "at least one", func(k *schematic.Kind) { k.Sections = nil }},
		{"sections[1].name", "twice", func(k *schematic.Kind) { k.Sections = append(k.Sections, k.Sections[0]) }},
		{"sections[0].form", "bar, box, rows", func(k *schematic.Kind) { k.Sections[0].Form = "star" }},
		{"sections[0].shapes", "empty", func(k *schematic.Kind) { k.Sections[0].Shapes = nil }},
		{"sections[0].min_width", "out of range", func(k *schematic.Kind) { k.Sections[0].MinWidth = -1 }},
		{"sections[0].shapes[0].type", "not a shape", func(k *schematic.Kind) { k.Sections[0].Shapes[0].Type = "blob" }},
		{"sections[0].shapes[0].points", "takes 2 to 2", func(k *schematic.Kind) { k.Sections[0].Shapes[0].Points = nil }},
		{"sections[0].shapes[0].points", "no area", func(k *schematic.Kind) { k.Sections[0].Shapes[0].Points[1].X = -25 }},
		{"sections[0].shapes[0].points", "from the origin", func(k *schematic.Kind) { k.Sections[0].Shapes[0].Points[1].X = 99999 }},
		{"sections[0].shapes[0].fill", "body, paper, solid", func(k *schematic.Kind) { k.Sections[0].Shapes[0].Fill = "red" }},
		{"sections[0].shapes[0].weight", "bold, thin", func(k *schematic.Kind) { k.Sections[0].Shapes[0].Weight = "fat" }},
		{"sections[0].shapes[0].radius", "no radius", func(k *schematic.Kind) { k.Sections[0].Shapes[0].Radius = 4 }},
		{"sections[0].shapes[1].radius", "write 1 to", func(k *schematic.Kind) { k.Sections[0].Shapes[1].Radius = 0 }},
		{"sections[0].shapes[1].sweep", "some sweep", func(k *schematic.Kind) { k.Sections[0].Shapes[1].Sweep = 0 }},
		{"sections[0].shapes[1].fill", "cannot be filled", func(k *schematic.Kind) { k.Sections[0].Shapes[1].Fill = "body" }},
		{"sections[0].shapes[2].text", "empty", func(k *schematic.Kind) { k.Sections[0].Shapes[2].Text = "" }},
		{"sections[0].shapes[2].size", "text height", func(k *schematic.Kind) { k.Sections[0].Shapes[2].Size = 0 }},
	} {
		t.Run(tc.path+" "+tc.text, func(t *testing.T) {
			k := sound()
			tc.spoil(k)
			requireProblem(t, k, tc.path, tc.text)
		})
	}
	for _, tc := range []struct {
		path, text string
		spoil      func(k *schematic.Kind)
	}{
		{"roles", "at least one role", func(k *schematic.Kind) { k.Roles = nil }},
		{"pins[0].role", `""`, func(k *schematic.Kind) { k.Pins[0].Role = "" }},
		{"sections[0].form", "needs a form", func(k *schematic.Kind) { k.Sections[0].Form = "" }},
		{"roles[0].elements[0].a", "neither @", func(k *schematic.Kind) { k.Roles[0].Elements[0].A = "1" }},
		{"roles[0].params[0].name", "used by no element", func(k *schematic.Kind) { k.Roles[0].Elements = nil }},
		{"roles[0].title", "needs a title", func(k *schematic.Kind) { k.Roles[0].Title = "" }},
		{"roles[1].name", "twice", func(k *schematic.Kind) { k.Roles = append(k.Roles, k.Roles[0]) }},
		{"elements[0].a", "neither a pin", func(k *schematic.Kind) {
			k.Elements = []schematic.Element{{Name: "e", Type: schematic.ElemOpen, A: "1", B: "#gnd"}}
		}},
		{"elements[0].feed", "neither a pin", func(k *schematic.Kind) {
			k.Elements = []schematic.Element{{Name: "e", Type: schematic.ElemRegulator, A: "#5v", B: "#gnd"}}
		}},
	} {
		t.Run("own pins "+tc.path+" "+tc.text, func(t *testing.T) {
			k := own()
			tc.spoil(k)
			requireProblem(t, k, tc.path, tc.text)
		})
	}
}

// What the format page lets a kind of a harness file leave out is minor.
func TestMinorProblems(t *testing.T) {
	k := sound()
	k.Title, k.Group, k.Prefix, k.Elements[0].Load, k.Params[0].Source, k.Params[0].Title = "", "", "", "", "", ""
	ps := Validate(k)
	require.Len(t, ps, 6)
	for _, p := range ps {
		require.True(t, p.Minor, p)
	}
	k = sound()
	k.Elements[0].Args["ohms"] = schematic.Arg{Value: 3}
	require.Equal(t, []Problem{{Path: "elements[0].args.ohms", Text: "coil takes no ohms"}}, Validate(k))
}

func requireProblem(t *testing.T, k *schematic.Kind, path, text string) {
	t.Helper()
	var all []string
	for _, p := range Validate(k) {
		if p.Path == path && strings.Contains(p.Text, text) {
			return
		}
		all = append(all, p.String())
	}
	t.Errorf("no problem at %s with %q, found %q", path, text, all)
}

// Every element type must be in the table of arguments, and every argument
// must have a unit.
func TestArgumentsAreSpecified(t *testing.T) {
	for _, typ := range schematic.ElementTypes() {
		spec, ok := argSpecs[typ]
		require.True(t, ok, typ)
		for _, a := range append(spec.need[:len(spec.need):len(spec.need)], spec.may...) {
			require.True(t, units[argUnit[a]], "%s of %s", a, typ)
		}
	}
	require.Len(t, argSpecs, len(schematic.ElementTypes()))
}

func FuzzValidate(f *testing.F) {
	files, err := assets.Kinds.ReadDir("kinds")
	require.NoError(f, err)
	for _, entry := range files {
		data, err := assets.Kinds.ReadFile("kinds/" + entry.Name())
		require.NoError(f, err)
		var all struct{ Kinds []json.RawMessage }
		require.NoError(f, json.Unmarshal(data, &all))
		for _, k := range all.Kinds {
			f.Add([]byte(k))
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		k := new(schematic.Kind)
		if canon.Decode(data, k) != nil {
			return
		}
		for _, p := range Validate(k) {
			if p.Text == "" {
				t.Fatal("a problem without words")
			}
		}
		Search(schematic.NewLibrary(k), "a")
		WithPins(k, New(k, "X1"), 9)
	})
}
