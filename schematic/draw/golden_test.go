package draw_test

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/draw"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares text with testdata/name.txt. A differing text is written to
// testdata/failed.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name+".txt")
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
		return
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "run the test with -update to write it")
	if string(want) == got {
		return
	}
	failed := filepath.Join("testdata", "failed", name+".txt")
	require.NoError(t, os.MkdirAll(filepath.Dir(failed), 0o755))
	require.NoError(t, os.WriteFile(failed, []byte(got), 0o644))
	assert.Fail(t, "display list differs", "compare %s with %s", path, failed)
}

func TestGoldenSheets(t *testing.T) {
	b := small(t)
	tests := []struct {
		name, why string
		opts      draw.Options
	}{
		{"plain", "every form of part, wire, note and group", draw.Options{}},
		{"nohops", "crossings drawn straight", draw.Options{NoHops: true}},
		{"live", "currents, trace, volts and marks", draw.Options{Live: &draw.Live{
			Currents: map[schematic.ID]draw.Current{
				wireID(b, "W1"): {Text: "4.2 A", Flow: draw.AToB},
				wireID(b, "W2"): {Text: "0.5 A", Flow: draw.BToA},
				wireID(b, "W4"): {Text: "0 A"},
			},
			Trace: map[schematic.Key]bool{key(b, "W1"): true, key(b, "E1"): true},
			Spots: []draw.Spot{{Pin: schematic.PinRef{Part: b.parts["E1"].ID, Pin: "58"}, Text: "11.9 V"}},
			Severity: map[schematic.Key]draw.Severity{
				key(b, "F2"): {Level: draw.Error}, key(b, "W7"): {Level: draw.Warn, Word: "no size"}, key(b, "X1"): {},
			},
		}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { golden(t, tt.name, draw.Sheet(b.doc, b.sheet.ID, tt.opts).Text()) })
	}
}

// A golden that no test reads would rot unseen.
func TestEveryGoldenHasATest(t *testing.T) {
	known := map[string]bool{"plain.txt": true, "nohops.txt": true, "live.txt": true, "chart.txt": true}
	files, err := filepath.Glob("testdata/*.txt")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, f := range files {
		assert.True(t, known[filepath.Base(f)], f)
	}
}

func key(b *bench, name string) schematic.Key {
	k, ok := b.doc.Named(name)
	if !ok {
		panic("no " + name)
	}
	return k
}

func wireID(b *bench, name string) schematic.ID { return key(b, name).ID }
