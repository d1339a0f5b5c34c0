package loomfile

import (
	"errors"
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic/canon"
)

// TestSampleOfEveryVersion keeps one file of each version for ever: it loads
// and saves as today's golden.
func TestSampleOfEveryVersion(t *testing.T) {
	for v := 1; v <= Version; v++ {
		name := fmt.Sprintf("v%d.loom.json", v)
		data, err := os.ReadFile("testdata/" + name)
		require.NoError(t, err, "a version needs a sample")
		d, err := Decode(data, library(t))
		require.NoError(t, err)
		out, err := Encode(d)
		require.NoError(t, err)
		golden(t, fmt.Sprintf("v%d.golden.loom.json", v), out)
		if v < Version {
			assert.NotNil(t, migrations()[v], "version %d needs a migration", v)
		}
	}
	assert.Len(t, migrations(), Version-1)
}

func TestMigrationSteps(t *testing.T) {
	tree, err := canon.Parse([]byte(`{"version":1,"old":5}`))
	require.NoError(t, err)
	steps := map[int]migration{
		1: func(t *canon.Tree) error {
			v, _ := t.Root.Remove("old")
			t.Root.Set("new", v)
			return nil
		},
		2: func(t *canon.Tree) error {
			t.Root.Set("more", canon.TextNode("x"))
			return nil
		},
	}
	require.NoError(t, migrate(tree, steps, 3))
	var got struct {
		Version int    `json:"version"`
		New     int    `json:"new"`
		More    string `json:"more"`
	}
	require.NoError(t, tree.Decode(&got))
	assert.Equal(t, 3, got.Version)
	assert.Equal(t, 5, got.New)
	assert.Equal(t, "x", got.More)

	tree, err = canon.Parse([]byte(`{"version":1}`))
	require.NoError(t, err)
	failing := map[int]migration{1: func(t *canon.Tree) error { return t.Errorf(&t.Root, "parts", "no") }}
	assert.EqualError(t, migrate(tree, failing, 2), "bring the file from format version 1 to 2: line 1, column 1: parts: no")
}

func TestHeader(t *testing.T) {
	for _, c := range []struct{ in, text string }{
		{`[]`, "this is not a harness file: it should be an object {…}, found a list"},
		{`{}`, `it does not say "format": "loomwright-harness"`},
		{`{"format":"loomwright-clip","version":1}`, `should be "loomwright-harness", found "loomwright-clip"`},
		{`{"format":7,"version":1}`, "the format should be"},
		{`{"format":"loomwright-harness"}`, `write "version": 1`},
		{`{"format":"loomwright-harness","version":0}`, "a whole number from 1"},
		{`{"format":"loomwright-harness","version":-1}`, "a whole number from 1"},
		{`{"format":"loomwright-harness","version":1.0}`, "a whole number from 1"},
		{`{"format":"loomwright-harness","version":"1"}`, "a whole number from 1"},
		{`{"format":"loomwright-harness","version":null}`, "a whole number from 1"},
		{`{"format":"loomwright-harness","version":99999999999999999999}`, "a whole number from 1"},
	} {
		_, err := Decode([]byte(c.in), nil)
		assert.ErrorContains(t, err, c.text, c.in)
	}
	_, err := Decode([]byte(`{"format":"loomwright-harness","version":2,"parts":"of another form"}`), nil)
	assert.True(t, errors.Is(err, ErrVersion))
	assert.ErrorContains(t, err, "format version 2, this one knows up to 1): update the program")
}
