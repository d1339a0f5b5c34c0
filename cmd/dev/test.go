package main

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"strings"
)

// test runs every test in the module. Window tests carry the build tag
// "window", so that a plain "go test ./..." works on any machine.
func test(in installer, args []string) error {
	if err := in.need(append(append([]string(nil), buildPackages...), testPackages...)); err != nil {
		return err
	}
	if err := formatted(); err != nil {
		return err
	}
	if err := run("go", "vet", "-tags", "window", "./..."); err != nil {
		return err
	}
	stop, display, err := virtualScreen()
	if err != nil {
		return err
	}
	defer stop()
	if len(args) == 0 {
		args = []string{"./..."}
	}
	args = append([]string{"test", "-tags", "window", "-timeout", "12m"}, args...)
	c := exec.Command("go", args...)
	c.Env = append(os.Environ(), "DISPLAY="+display, "FYNE_SCALE=1", "FYNE_DISABLE_DPI_DETECTION=1", "LANG=en_US.UTF-8", "LC_CTYPE=C.UTF-8")
	c.Stdout, c.Stderr = os.Stdout, os.Stderr
	return c.Run()
}

// formatted fails when a file of the checkout is not gofmt-ed.
func formatted() error {
	out, err := exec.Command("gofmt", "-l", "assets", "calc", "cmd", "netlist", "schematic", "ui").Output()
	if err != nil {
		return fmt.Errorf("gofmt: %w", err)
	}
	if files := strings.Fields(string(out)); len(files) > 0 {
		return fmt.Errorf("run gofmt -w on %s", strings.Join(files, " "))
	}
	return nil
}

// virtualScreen starts an X server without a screen on a display number of its
// own choice.
func virtualScreen() (stop func(), display string, err error) {
	r, w, err := os.Pipe()
	if err != nil {
		return nil, "", err
	}
	defer r.Close()
	c := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", "1600x1000x24", "-nolisten", "tcp", "-noreset")
	c.ExtraFiles = []*os.File{w}
	c.Stderr = os.Stderr // why it ended, should it end
	if err := c.Start(); err != nil {
		w.Close()
		return nil, "", fmt.Errorf("start the virtual screen: %w", err)
	}
	w.Close()
	stop = func() { _ = c.Process.Kill(); _ = c.Wait() }
	// Up to the end of the line: the server writes the number and the line's end
	// apart, and ends itself when it cannot write the second.
	line, err := bufio.NewReader(r).ReadString('\n')
	if err != nil {
		stop()
		return nil, "", fmt.Errorf("the virtual screen did not come up: %w", err)
	}
	num, err := strconv.Atoi(strings.TrimSpace(line))
	if err != nil {
		stop()
		return nil, "", fmt.Errorf("the virtual screen gave no display number: %w", err)
	}
	return stop, ":" + strconv.Itoa(num), nil
}
