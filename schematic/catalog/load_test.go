package catalog

import (
	"encoding/json"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"loomwright/assets"
	"loomwright/schematic"
)

// library returns the built-in kinds.
func library(t testing.TB) *schematic.Library {
	t.Helper()
	lib, err := Default()
	require.NoError(t, err)
	return lib
}

// eachKind runs a sub-test for every built-in kind.
func eachKind(t *testing.T, f func(t *testing.T, k *schematic.Kind)) {
	lib := library(t)
	for _, name := range lib.Names() {
		t.Run(name, func(t *testing.T) { f(t, lib.Kind(name)) })
	}
}

func TestDefaultIsReadOnce(t *testing.T) {
	a, b := library(t), library(t)
	require.Same(t, a, b)
	require.NotEmpty(t, a.Names())
}

// A misspelt optional field would be kept as unknown and do nothing.
func TestAssetsHaveNoUnknownFields(t *testing.T) {
	files, err := assets.Kinds.ReadDir("kinds")
	require.NoError(t, err)
	for _, entry := range files {
		data, err := assets.Kinds.ReadFile("kinds/" + entry.Name())
		require.NoError(t, err)
		d := json.NewDecoder(strings.NewReader(string(data)))
		d.DisallowUnknownFields()
		var f file
		require.NoError(t, d.Decode(&f), entry.Name())
	}
}

const goodKind = `{"name":"a","title":"A","group":"g","prefix":"E","pins":[{"name":"1"}],"sections":[{"shapes":[{"type":"circle","points":[[0,0]],"radius":5}]}]}`

func TestLoadErrors(t *testing.T) {
	for _, tc := range []struct{ name, why, json, want string }{
		{"not JSON", "the place is named", `{"kinds": [}`, "x.json: line 1"},
		{"wrong type", "the path is named", `{"kinds":[{"name":5}]}`, "kinds[0].name"},
		{"unknown top field", "a misspelt kinds would give an empty library", `{"kind":[]}`, "kind"},
		{"null", "must not crash", `{"kinds":[null]}`, "kinds[0]"},
		{"twice", "two meanings of one name", `{"kinds":[` + goodKind + `,` + goodKind + `]}`, `"a" is defined twice, in x.json and x.json`},
		{"invalid", "bad kinds stop here, not in the drawing", `{"kinds":[{"name":"a","sections":[]}]}`, `part kind "a": title: is missing`},
		{"other half", "half a connector cannot be placed", `{"kinds":[` + strings.Replace(goodKind, `"prefix"`, `"other_half":"b","prefix"`, 1) + `]}`, `other half "b"`},
	} {
		t.Run(tc.name, func(t *testing.T) {
			_, err := Load(fstest.MapFS{"kinds/x.json": {Data: []byte(tc.json)}})
			require.ErrorContains(t, err, tc.want, tc.why)
		})
	}
	lib, err := Load(fstest.MapFS{"kinds/x.json": {Data: []byte(`{"kinds":[` + goodKind + `]}`)}, "other.json": {Data: []byte("no")}})
	require.NoError(t, err)
	require.Equal(t, []string{"a"}, lib.Names())
}
