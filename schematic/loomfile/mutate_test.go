package loomfile

import (
	"encoding/json"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/geom"
)

// mutate changes a few values of a JSON file at random: other types, missing
// and doubled items, exchanged values. What is no JSON comes back as it is.
func mutate(data []byte, seed uint64) []byte {
	var v any
	if json.Unmarshal(data, &v) != nil {
		return data
	}
	r := rand.New(rand.NewPCG(seed, 1))
	for range 1 + r.IntN(3) {
		v = mutateValue(r, v, 1+r.IntN(8))
	}
	out, err := json.Marshal(v)
	if err != nil {
		return data
	}
	return out
}

// mutateValue goes depth steps down and changes what it finds there.
func mutateValue(r *rand.Rand, v any, depth int) any {
	switch v := v.(type) {
	case map[string]any:
		if len(v) == 0 || depth == 0 {
			break
		}
		names := make([]string, 0, len(v))
		for name := range v {
			names = append(names, name)
		}
		slices.Sort(names)
		name, other := names[r.IntN(len(names))], names[r.IntN(len(names))]
		switch r.IntN(12) {
		case 0:
			delete(v, name)
		case 1:
			v[name] = v[other]
		case 2:
			v[name+"x"] = v[name]
		default:
			v[name] = mutateValue(r, v[name], depth-1)
		}
		return v
	case []any:
		if len(v) == 0 || depth == 0 {
			break
		}
		i := r.IntN(len(v))
		switch r.IntN(12) {
		case 0:
			return slices.Delete(v, i, i+1)
		case 1:
			return append(v, v[i])
		default:
			v[i] = mutateValue(r, v[i], depth-1)
		}
		return v
	}
	values := []any{nil, true, 0.0, -1.0, 1.0, 1e300, 4.5, "", "F1", "F1.1", "1", "x.y.z", "00000000-0000-0000-0000-000000000000",
		[]any{}, []any{1.0, 2.0}, []any{nil}, map[string]any{}, map[string]any{"part": "F1", "pin": "1"}}
	return values[r.IntN(len(values))]
}

// requireLaws asserts that what can be read can be written and read again.
func requireLaws(t *testing.T, data []byte, lib *schematic.Library) bool {
	d, err := Decode(data, lib)
	if err != nil {
		require.Nil(t, d)
		return false
	}
	out, err := Encode(d)
	require.NoError(t, err, "what was read can be written")
	back, err := Decode(out, lib)
	require.NoError(t, err, "what was written can be read:\n%s", out)
	requireSame(t, d, back)
	again, err := Encode(back)
	require.NoError(t, err)
	require.Equal(t, string(out), string(again))
	return true
}

func TestMutatedFiles(t *testing.T) {
	sample, err := os.ReadFile("testdata/v1.loom.json")
	require.NoError(t, err)
	canonical, err := os.ReadFile("testdata/v1.golden.loom.json")
	require.NoError(t, err)
	lib := library(t)
	read := 0
	for seed := range uint64(500) {
		for _, data := range [][]byte{sample, canonical} {
			if requireLaws(t, mutate(data, seed), lib) {
				read++
			}
		}
	}
	require.Greater(t, read, 100, "some still read")
	require.Less(t, read, 900, "and some do not")
}

// A harness written by hand and drawn at the edge of what a file can hold gets
// bends that a file can hold.
func TestAFileDrawnAtTheEdge(t *testing.T) {
	demo, err := os.ReadFile("../../testdata/pickup.loom.json")
	require.NoError(t, err)
	lib, err := catalog.Default()
	require.NoError(t, err)
	const edge = geom.MaxCoord
	places := []float64{-edge, -edge + 50, -edge + 75, 0, 1000, edge - 75, edge - 50, edge - 25, edge}
	r := rand.New(rand.NewPCG(0, 2))
	var file map[string]any
	require.NoError(t, json.Unmarshal(demo, &file))
	moveSome(r, file["parts"], places)
	for _, w := range file["wires"].([]any) {
		for _, member := range []string{"id", "via", "twist", "screen"} {
			delete(w.(map[string]any), member)
		}
	}
	delete(file, "groups") // they name wires by ID
	data, err := json.Marshal(file)
	require.NoError(t, err)
	require.True(t, requireLaws(t, data, lib), "it can be read")
}

// moveSome puts some of the views of parts at other places.
func moveSome(r *rand.Rand, parts any, places []float64) {
	for _, p := range parts.([]any) {
		views, _ := p.(map[string]any)["views"].([]any)
		for _, v := range views {
			if r.IntN(3) == 0 {
				v.(map[string]any)["at"] = []any{places[r.IntN(len(places))], places[r.IntN(len(places))]}
			}
		}
	}
}
