//go:build window

package main

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/geom"
)

type wire struct {
	ID    schematic.ID `json:"id"`
	Sheet schematic.ID `json:"sheet"`
	A     end          `json:"a"`
	B     end          `json:"b"`
}

// addedWire returns the one wire by which a file grew, and requires everything
// else to be the same, byte for byte.
func addedWire(t *testing.T, before, after []byte) wire {
	t.Helper()
	had := map[schematic.ID]bool{}
	for _, raw := range wiresOf(t, before) {
		had[parseWire(t, raw).ID] = true
	}
	var added []json.RawMessage
	for _, raw := range wiresOf(t, after) {
		if !had[parseWire(t, raw).ID] {
			added = append(added, raw)
		}
	}
	require.Len(t, added, 1, "one wire more")
	const between = ",\n    "
	rest := strings.Replace(string(after), between+string(added[0]), "", 1)
	if rest == string(after) { // the first of its list
		rest = strings.Replace(rest, string(added[0])+between, "", 1)
	}
	require.Equal(t, string(before), rest, "without the added wire the file is as it was, byte for byte")
	return parseWire(t, added[0])
}

func wiresOf(t *testing.T, file []byte) []json.RawMessage {
	t.Helper()
	var f struct {
		Wires []json.RawMessage `json:"wires"`
	}
	require.NoError(t, json.Unmarshal(file, &f))
	return f.Wires
}

func parseWire(t *testing.T, raw json.RawMessage) (w wire) {
	t.Helper()
	require.NoError(t, json.Unmarshal(raw, &w))
	return w
}

// copyOf puts a copy of an example into a folder for a test to work on, and
// returns where it is, what is in it and the part kinds it is read with.
func copyOf(t *testing.T, folder, drawing string) (file string, text []byte, lib *schematic.Library) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", drawing))
	require.NoError(t, err)
	file = filepath.Join(folder, drawing)
	require.NoError(t, os.WriteFile(file, text, 0o644))
	lib, err = catalog.Default()
	require.NoError(t, err)
	return file, text, lib
}

func read(t *testing.T, file string) []byte {
	t.Helper()
	b, err := os.ReadFile(file)
	require.NoError(t, err)
	return b
}

func files(t *testing.T, folder string) []string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	var all []string
	for _, e := range entries {
		all = append(all, filepath.Join(folder, e.Name()))
	}
	return all
}

// checkPDF lets poppler read the page back.
func checkPDF(t *testing.T, file, title string) {
	t.Helper()
	text, err := exec.Command("pdftotext", "-layout", file, "-").Output()
	require.NoError(t, err)
	require.Contains(t, string(text), title)
}

// pages is how many pages poppler counts.
func pages(t *testing.T, file string) int {
	t.Helper()
	out, err := exec.Command("pdfinfo", file).Output()
	require.NoError(t, err)
	_, rest, ok := strings.Cut(string(out), "Pages:")
	require.True(t, ok, "pdfinfo: %s", out)
	n, err := strconv.Atoi(strings.Fields(rest)[0])
	require.NoError(t, err)
	return n
}

// checkPNG wants the sheet at the 300 dots per inch that the export box offers,
// with something drawn on it.
func checkPNG(t *testing.T, file string, s *schematic.Sheet) {
	t.Helper()
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	m, err := png.Decode(f)
	require.NoError(t, err)
	dots := func(units int) float64 { return float64(units) / geom.PerMM / 25.4 * 300 }
	require.InDelta(t, dots(s.Area().Max.X), m.Bounds().Dx(), 1)
	require.InDelta(t, dots(s.Area().Max.Y), m.Bounds().Dy(), 1)
	paper, inked := m.At(0, 0), 0
	for y := range m.Bounds().Dy() {
		for x := range m.Bounds().Dx() {
			if m.At(x, y) != paper {
				inked++
			}
		}
	}
	require.Greater(t, inked, 10_000, "pixels that are not bare paper")
}

// checkSVG wants well-formed XML of the sheet's size that names the title.
func checkSVG(t *testing.T, file string, s *schematic.Sheet, title string) {
	t.Helper()
	dec := xml.NewDecoder(bytes.NewReader(read(t, file)))
	var text strings.Builder
	size := map[string]string{}
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		switch tok := tok.(type) {
		case xml.StartElement:
			if tok.Name.Local == "svg" {
				for _, a := range tok.Attr {
					size[a.Name.Local] = a.Value
				}
			}
		case xml.CharData:
			text.Write(tok)
			text.WriteByte(' ')
		}
	}
	mm := func(units int) string { return strconv.FormatFloat(float64(units)/geom.PerMM, 'f', -1, 64) + "mm" }
	require.Equal(t, mm(s.Area().Max.X), size["width"])
	require.Equal(t, mm(s.Area().Max.Y), size["height"])
	require.Contains(t, text.String(), title)
}
