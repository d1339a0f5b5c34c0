package catalog

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
)

func TestOwnKindsAreKeptAndReadBack(t *testing.T) {
	lib := library(t)
	k := *lib.Kind("relay-make")
	k.Name, k.Title, k.ID = "relay-own", "Relay of mine", schematic.ID{7}
	data, err := EncodeOwn(&k)
	require.NoError(t, err)
	clash, err := EncodeOwn(lib.Kind("lamp"))
	require.NoError(t, err)
	own, err := LoadOwn(fstest.MapFS{
		"kinds/relay-own.json": {Data: data},
		"kinds/again.json":     {Data: data},
		"kinds/broken.json":    {Data: []byte(`{"kinds": [`)},
		"kinds/empty.json":     {Data: []byte(`{"kinds": [{"name": "x", "sections": []}]}`)},
		"kinds/null.json":      {Data: []byte(`{"kinds": [null]}`)},
		"kinds/lamp.json":      {Data: clash},
		"kinds/readme.txt":     {Data: []byte("not a kind")},
	}, lib)
	require.Len(t, own, 1, "what can be used is used")
	for _, words := range []string{"broken.json", `empty.json: part kind "x"`, "null.json: ", `lamp.json: the program has a part kind "lamp" itself`, `relay-own.json: part kind "relay-own" is in again.json too`} {
		require.ErrorContains(t, err, words)
	}
	k.ID = schematic.ID{}
	assert.Equal(t, &k, own[0])
	none, err := LoadOwn(fstest.MapFS{}, lib)
	require.NoError(t, err)
	assert.Empty(t, none)
}
