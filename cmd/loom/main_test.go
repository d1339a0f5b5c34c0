package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// harnesses are the example files of the repository.
const harnesses = "../../testdata"

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"loom": main})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(e *testscript.Env) error {
			for _, name := range []string{"fan.loom.json", "lamp-faulty.loom.json"} {
				data, err := os.ReadFile(filepath.Join(harnesses, name))
				if err != nil {
					return err
				}
				if err := os.WriteFile(filepath.Join(e.WorkDir, name), data, 0o644); err != nil {
					return err
				}
			}
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"fields": fields, "header": header},
		// UPDATE_SCRIPTS=1 go test rewrites what scripts expect of fields and texts.
		UpdateScripts: os.Getenv("UPDATE_SCRIPTS") != "",
	})
}

// fields prints what a JSON file holds, one line a field: its path and the
// types its values have. "fields stdout" reads what the last command printed.
func fields(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: fields FILE")
	}
	dec := json.NewDecoder(strings.NewReader(ts.ReadFile(args[0])))
	var v any
	ts.Check(dec.Decode(&v))
	types := map[string]map[string]bool{}
	collect(v, "", types)
	for _, path := range slices.Sorted(maps.Keys(types)) {
		fmt.Fprintf(ts.Stdout(), "%s: %s\n", path, strings.Join(slices.Sorted(maps.Keys(types[path])), " or "))
	}
}

func collect(v any, path string, types map[string]map[string]bool) {
	is := func(name string) {
		if types[path] == nil {
			types[path] = map[string]bool{}
		}
		types[path][name] = true
	}
	switch v := v.(type) {
	case map[string]any:
		for name, x := range v {
			collect(x, strings.TrimPrefix(path+"."+name, "."), types)
		}
	case []any:
		is("list")
		for _, x := range v {
			if _, object := x.(map[string]any); object {
				collect(x, path, types)
			} else {
				collect(x, path+"[]", types)
			}
		}
	case string:
		is("text")
	case float64:
		is("number")
	case bool:
		is("true/false")
	case nil:
		is("null")
	}
}

// header checks the first bytes of a file.
func header(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: header FILE png|svg|pdf")
	}
	want := map[string]string{"png": "\x89PNG\r\n\x1a\n", "svg": "<?xml", "pdf": "%PDF-1."}[args[1]]
	if data := ts.ReadFile(args[0]); want == "" || !strings.HasPrefix(data, want) {
		ts.Fatalf("%s begins with %.12q, not with %q", args[0], data, want)
	}
}

// invoke runs a command line in this process.
func invoke(t *testing.T, args ...string) (code int, stdout, stderr string) {
	t.Helper()
	var out, errw bytes.Buffer
	code = run(args, strings.NewReader(""), &out, &errw)
	return code, out.String(), errw.String()
}

// currentsOf runs  loom currents -json  and reads what it prints.
func currentsOf(t *testing.T, path string) currentsJSON {
	t.Helper()
	code, out, errs := invoke(t, "currents", "-json", path)
	require.Equal(t, exitClean, code, errs)
	var c currentsJSON
	dec := json.NewDecoder(strings.NewReader(out))
	dec.DisallowUnknownFields()
	require.NoError(t, dec.Decode(&c))
	return c
}

// full is a disk without room.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

// TestLostOutputIsNoSuccess runs every command that prints with nowhere to
// print to.
func TestLostOutputIsNoSuccess(t *testing.T) {
	fan := filepath.Join(harnesses, "fan.loom.json")
	for _, args := range [][]string{{"check", fan}, {"check", "-json", fan}, {"currents", fan}, {"trace", fan, "K1"}, {"ohms", fan, "F1.1", "F1.2"}, {"worst", fan}, {"sneaks", fan},
		{"validate", fan}, {"format", fan}, {"kinds"}, {"kinds", "lamp"}, {"rules"}} {
		var errw bytes.Buffer
		code := run(args, strings.NewReader(""), full{}, &errw)
		assert.Equal(t, exitUnusable, code, "%v", args)
		assert.Contains(t, errw.String(), "no space left", "%v", args)
	}
}
