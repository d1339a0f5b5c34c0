package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestMissingPackagesAreNamedInOrder(t *testing.T) {
	has := func(p string) bool { return p == "gcc" }
	require.Equal(t, []string{"xvfb", "xdotool"}, missingOf([]string{"xvfb", "gcc", "xdotool"}, has))
	require.Empty(t, missingOf([]string{"gcc"}, has))
}

func TestConfirmTakesOnlyAClearYes(t *testing.T) {
	for answer, want := range map[string]bool{"y\n": true, "YES\n": true, "n\n": false, "\n": false, "": false, "yess\n": false} {
		var out bytes.Buffer
		require.Equal(t, want, confirm(strings.NewReader(answer), &out, "install them?"), "answer %q", answer)
		require.Contains(t, out.String(), "install them?")
	}
}
