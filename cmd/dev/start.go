package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
)

const demo = "testdata/pickup.loom.json"

func start(in installer) error {
	if os.Getenv("DISPLAY") == "" && os.Getenv("WAYLAND_DISPLAY") == "" {
		fmt.Fprintln(os.Stderr, "dev: there is no display, so no window can open; checking the demo and drawing it to files instead")
		return drawDemo()
	}
	if err := in.need(buildPackages); err != nil {
		return err
	}
	fmt.Fprintln(os.Stderr, "dev: building the editor (the first time takes a few minutes)")
	bin := filepath.Join("bin", "loomwright")
	if err := run("go", "build", "-tags", "migrated_fynedo,no_emoji", "-o", bin, "./cmd/loomwright"); err != nil {
		return err
	}
	return run(bin, demo)
}

// drawDemo checks the demo and writes its sheets, without cgo or a window.
func drawDemo() error {
	loom := filepath.Join("bin", "loom")
	if err := run("go", "build", "-o", loom, "./cmd/loom"); err != nil {
		return err
	}
	var exit *exec.ExitError
	if err := run(loom, "check", demo); err != nil && !(errors.As(err, &exit) && exit.ExitCode() == 1) {
		return err // 1 only says that there are findings
	}
	if err := os.MkdirAll("out", 0o755); err != nil {
		return err
	}
	for _, ext := range []string{"png", "svg", "pdf"} {
		if err := run(loom, "export", "-o", filepath.Join("out", "pickup."+ext), demo); err != nil {
			return err
		}
	}
	return nil
}
