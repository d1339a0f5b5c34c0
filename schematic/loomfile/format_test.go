package loomfile

import (
	"flag"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/tables"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares with a file of testdata; a difference is left in
// testdata/failed.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.WriteFile(path, got, 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	if string(want) != string(got) {
		require.NoError(t, os.MkdirAll("testdata/failed", 0o755))
		failed := filepath.Join("testdata/failed", name)
		require.NoError(t, os.WriteFile(failed, got, 0o644))
		t.Errorf("%s differs, see %s", path, failed)
	}
}

func formatPage(t *testing.T) string {
	t.Helper()
	page, err := os.ReadFile("FORMAT.md")
	require.NoError(t, err)
	return string(page)
}

func builtin(t testing.TB) *schematic.Library {
	t.Helper()
	lib, err := catalog.Default()
	require.NoError(t, err)
	return lib
}

func TestExampleOfTheFormatPage(t *testing.T) {
	blocks := regexp.MustCompile("(?s)```json\n(.*?)```").FindAllStringSubmatch(formatPage(t), -1)
	require.Len(t, blocks, 3)
	d, err := Decode([]byte(blocks[0][1]), builtin(t))
	require.NoError(t, err)
	for p := range d.Parts() {
		assert.NotNil(t, d.KindOf(p), "kind %q of %s is in the program", p.Kind, p.Name)
	}
	assert.Equal(t, 5, d.Len(schematic.TypeWire))
	for w := range d.Wires() {
		assert.False(t, w.A.Loose() || w.B.Loose())
		assert.True(t, w.Size.Known(), "%s", w.Name)
	}
	data, err := Encode(d)
	require.NoError(t, err)
	golden(t, "lamp.loom.json", data)

	loom := `{"format":"loomwright-harness","version":1,"sheets":[{"name":"1"}],"looms":[` + blocks[1][1] + `],
		"wires":[{"name":"W1","a":{"at":[0,0]},"b":{"at":[100,0]},"loom":"L1","route":["cabin-firewall","firewall-fan"]}]}`
	_, err = Decode([]byte(loom), builtin(t))
	assert.NoError(t, err)

	horn := `{"format":"loomwright-harness","version":1,"sheets":[{"name":"1"}],"kinds":[` + blocks[2][1] + `],
		"parts":[{"name":"H1","kind":"horn-own-relay","views":[{"at":[500,500]}]}]}`
	d, err = Decode([]byte(horn), builtin(t))
	require.NoError(t, err)
	for _, p := range catalog.Validate(d.Kind("horn-own-relay")) {
		assert.True(t, p.Minor, "%s", p)
	}
}

// The page lists every code and word that a reader would otherwise have to
// guess.
func TestFormatPageNamesEveryWord(t *testing.T) {
	page := formatPage(t)
	for _, r := range tables.Insulations().All() {
		assert.Regexp(t, `\b`+r.Code+`\b`, page)
	}
	for _, param := range catalog.RuleParams() {
		assert.Contains(t, page, "`"+param+"`")
	}
	lib := builtin(t)
	for _, name := range lib.Names() {
		k := lib.Kind(name)
		if k.Family != "" {
			assert.Contains(t, page, "`"+k.Family+"`")
		}
		for _, r := range k.Roles {
			if r.Signal != "" {
				assert.Contains(t, page, "`"+r.Signal+"`", "signal of %s", k.Name)
			}
		}
		for _, e := range k.Elements {
			if e.Load != "" {
				assert.Contains(t, page, "`"+e.Load+"`", "load of %s", k.Name)
			}
			for arg := range e.Args {
				assert.Contains(t, page, "`"+arg+"`", "argument of %s", e.Type)
			}
		}
	}
}

// modelTypes returns every struct a file is made of.
func modelTypes() map[string]reflect.Type {
	return map[string]reflect.Type{
		"file": reflect.TypeFor[file](), "info": reflect.TypeFor[schematic.Info](), "link": reflect.TypeFor[schematic.Link](),
		"sheet": reflect.TypeFor[schematic.Sheet](), "kind": reflect.TypeFor[schematic.Kind](), "param": reflect.TypeFor[schematic.Param](),
		"pin": reflect.TypeFor[schematic.Pin](), "role": reflect.TypeFor[schematic.Role](), "element": reflect.TypeFor[schematic.Element](),
		"section": reflect.TypeFor[schematic.Section](), "shape": reflect.TypeFor[schematic.Shape](), "part": reflect.TypeFor[schematic.Part](),
		"view": reflect.TypeFor[schematic.View](), "housing": reflect.TypeFor[schematic.Housing](), "endObject": reflect.TypeFor[schematic.End](),
		"wire": reflect.TypeFor[schematic.Wire](), "group": reflect.TypeFor[schematic.Group](), "loom": reflect.TypeFor[schematic.Loom](),
		"node": reflect.TypeFor[schematic.Node](), "segment": reflect.TypeFor[schematic.Segment](), "hole": reflect.TypeFor[schematic.Hole](),
		"state": reflect.TypeFor[schematic.State](), "setting": reflect.TypeFor[schematic.Setting](), "note": reflect.TypeFor[schematic.Note](),
		"reading": reflect.TypeFor[schematic.Reading](), "pinref": reflect.TypeFor[schematic.PinRef](),
		"acceptance": reflect.TypeFor[schematic.Acceptance](), "subject": reflect.TypeFor[schematic.Subject](),
	}
}

func jsonNames(t reflect.Type) []string {
	var names []string
	for i := range t.NumField() {
		name, _, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		if name != "" && name != "-" {
			names = append(names, name)
		}
	}
	return names
}

// TestModelTypesAreAll fails when a struct of the model is missing above.
func TestModelTypesAreAll(t *testing.T) {
	known := map[reflect.Type]bool{}
	for _, typ := range modelTypes() {
		known[typ] = true
	}
	var walk func(reflect.Type)
	walk = func(typ reflect.Type) {
		switch typ.Kind() {
		case reflect.Pointer, reflect.Slice, reflect.Map:
			walk(typ.Elem())
		case reflect.Struct:
			if len(jsonNames(typ)) == 0 {
				return // written as a number, text or point
			}
			assert.True(t, known[typ], "%s is not in modelTypes", typ)
			for i := range typ.NumField() {
				if f := typ.Field(i).Type; f != typ {
					walk(f)
				}
			}
		}
	}
	walk(reflect.TypeFor[file]())
}

func TestFormatPageNamesEveryField(t *testing.T) {
	page := formatPage(t)
	for what, typ := range modelTypes() {
		for _, name := range jsonNames(typ) {
			assert.Contains(t, page, "`"+name+"`", "a field of %s", what)
		}
	}
	for _, e := range schematic.ElementTypes() {
		assert.Contains(t, page, "`"+string(e)+"`")
	}
	for _, b := range schematic.Builds() {
		assert.Contains(t, page, "`"+string(b)+"`")
	}
	assert.Contains(t, page, strings.Join(schematic.ColorCodes(), " "))
}
