package main

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/loomfile"
)

func TestGenerate(t *testing.T) {
	path := filepath.Join(t.TempDir(), "big.loom.json")
	require.NoError(t, generate([]string{"-wires", "120", "-seed", "7", "-o", path}))
	lib, err := catalog.Default()
	require.NoError(t, err)
	d, err := loomfile.Load(path, lib)
	require.NoError(t, err)
	assert.Equal(t, 120, d.Len(schematic.TypeWire))
	assert.Empty(t, schematic.Check(d))

	require.NoError(t, generate([]string{"-wires", "300", "-one-sheet", "-o", path}))
	d, err = loomfile.Load(path, lib)
	require.NoError(t, err)
	assert.Equal(t, 1, d.Len(schematic.TypeSheet))

	assert.ErrorContains(t, generate([]string{"-wires", "120"}), "name the file to write")
	assert.ErrorContains(t, generate([]string{"-wires", "3", "-o", path}), "give at least")
	assert.ErrorContains(t, generate([]string{"-o", filepath.Join(path, "no", "such.loom.json")}), "generate:")
}
