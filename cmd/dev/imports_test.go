package main

import (
	"encoding/json"
	"io"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const module = "loomwright/"

// mayImport is the import table of DEVELOPERS.md: what each package of the
// module may import from the module.
var mayImport = map[string]string{
	"calc/unit":          "",
	"calc/tables":        "calc/unit",
	"calc":               "calc/unit calc/tables",
	"assets":             "",
	"schematic/geom":     "",
	"schematic/canon":    "",
	"schematic":          "schematic/geom calc/unit",
	"schematic/catalog":  "schematic schematic/geom schematic/canon assets",
	"schematic/route":    "schematic schematic/geom",
	"schematic/edit":     "schematic schematic/geom schematic/route calc/unit",
	"schematic/loomfile": "schematic schematic/geom schematic/canon schematic/edit schematic/route schematic/catalog calc/unit",
	"schematic/sample":   "schematic schematic/geom calc/unit",
	"schematic/draw":     "schematic schematic/geom schematic/catalog assets calc/unit calc/tables",
	"schematic/export":   "schematic schematic/draw schematic/geom assets",
	"schematic/draft":    "schematic schematic/geom schematic/catalog calc/unit",
	"netlist/dc":         "",
	"netlist":            "netlist/dc schematic schematic/catalog calc calc/unit calc/tables",
	"netlist/check":      "netlist netlist/dc calc calc/unit calc/tables schematic schematic/edit",
	"netlist/table":      "netlist netlist/check calc/unit calc/tables schematic schematic/edit",
	"netlist/plot":       "netlist netlist/check schematic schematic/draw calc/unit",
	"ui/view":            below,
	"ui/tool":            below,
	"ui/action":          below,
	"ui":                 below + " ui/view ui/tool ui/action testdata",
	"cmd/dev":            "schematic schematic/catalog schematic/loomfile schematic/sample",
	"cmd/loom":           below + " schematic/canon",
	"cmd/loomwright":     "ui",

	"schematic/sample/cases": "",
}

// below is everything under the user interface.
const below = "calc/unit calc/tables calc assets schematic/geom schematic schematic/catalog schematic/route schematic/edit " +
	"schematic/loomfile schematic/draw schematic/export netlist netlist/dc netlist/check netlist/plot netlist/table schematic/draft"

// stdOnly packages import nothing from outside the module and the standard library.
var stdOnly = []string{"calc/unit", "calc/tables", "calc", "assets", "schematic/geom", "schematic/canon", "netlist/dc"}

type listed struct {
	ImportPath string
	Imports    []string
}

func packages(t *testing.T) []listed {
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports", "../../...").Output()
	require.NoError(t, err)
	var all []listed
	dec := json.NewDecoder(strings.NewReader(string(out)))
	for {
		var p listed
		if err := dec.Decode(&p); err == io.EOF {
			return all
		} else {
			require.NoError(t, err)
		}
		all = append(all, p)
	}
}

func TestImportsPointOneWay(t *testing.T) {
	seen := map[string]bool{}
	for _, p := range packages(t) {
		name := strings.TrimPrefix(p.ImportPath, module)
		if strings.HasPrefix(name, "out/") {
			continue // scratch, ignored by version control
		}
		allowed, known := mayImport[name]
		seen[name] = true
		require.True(t, known, "package %s is not in the import table: add it here and to DEVELOPERS.md", name)
		for _, imp := range p.Imports {
			in, ours := strings.CutPrefix(imp, module)
			switch {
			case ours:
				require.Contains(t, strings.Fields(allowed), in, "%s must not import %s", name, in)
			case strings.HasPrefix(imp, "fyne.io/fyne/v2/app"):
				require.Equal(t, "cmd/loomwright", name, "only cmd/loomwright may import %s", imp)
			case strings.HasPrefix(imp, "fyne.io/"):
				require.Contains(t, []string{"ui", "cmd/loomwright"}, name, "only package ui draws with the toolkit")
			case strings.HasPrefix(imp, "gonum.org/"):
				t.Errorf("%s imports %s: it is the reference solver of the tests only", name, imp)
			case strings.Contains(strings.SplitN(imp, "/", 2)[0], "."):
				require.False(t, slices.Contains(stdOnly, name), "%s must not import %s", name, imp)
			}
		}
	}
	page, err := os.ReadFile("../../DEVELOPERS.md")
	require.NoError(t, err)
	for name := range mayImport {
		require.True(t, seen[name], "the import table names %s, which does not exist", name)
		require.Contains(t, string(page), "`"+name+"`", "DEVELOPERS.md does not name %s in its table", name)
	}
}
