package engine

import (
	"fmt"
	"io"
	"os"
	"runtime"
	"slices"
	"strings"
	"testing"
)

// teller is the first argument of a test binary that is to tell its environment.
const teller = "tell-environment"

// tellIfAsked prints the environment that the process was started with.
func tellIfAsked() {
	if len(os.Args) != 2 || os.Args[1] != teller {
		return
	}
	for _, variable := range os.Environ() {
		fmt.Printf("%q\n", variable)
	}
	os.Exit(0)
}

// TestEngineIsToldNoSecret: a process started as engines are has nothing of clocktell's
// environment but what is named, and that as it is.
func TestEngineIsToldNoSecret(t *testing.T) {
	secrets := []string{"CLOCKTELL_TOKEN", "CLOCKTELL_BUS_TOKEN", "FEED_PASSWORD", "HTTPS_PROXY", "LC_TOKEN", "PATH_TOKEN", "XYZ"}
	for _, name := range secrets {
		t.Setenv(name, "wild-goose-41")
	}
	t.Setenv("LANG", "C.UTF-8")
	t.Setenv("OMP_NUM_THREADS", "3")
	t.Setenv("LC_ALL", "")
	told := environmentOfChild(t, itself(t), teller)
	for _, variable := range told {
		name, value, _ := strings.Cut(variable, "=")
		if strings.Contains(value, "wild-goose-41") || !slices.Contains(passedOn, strings.ToUpper(name)) {
			t.Errorf("the engine is told %s", name)
		}
	}
	for _, variable := range []string{"PATH=" + os.Getenv("PATH"), "LANG=C.UTF-8", "OMP_NUM_THREADS=3", "LC_ALL="} {
		if !slices.Contains(told, variable) {
			t.Errorf("the engine is not told %s", variable)
		}
	}
}

// TestEngineOfAnEmptyEnvironment: without a variable of those named it has none, rather than all.
func TestEngineOfAnEmptyEnvironment(t *testing.T) {
	env := environment(func(string) (string, bool) { return "", false })
	if env == nil || len(env) > 0 {
		t.Errorf("the environment is %#v, where os/exec takes nil for all there is", env)
	}
}

// TestEngineIsGivenMore as README.md says how: by the program env of POSIX.
func TestEngineIsGivenMore(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Windows has no env")
	}
	if told := environmentOfChild(t, "env", "FLAG=up", itself(t), teller); !slices.Contains(told, "FLAG=up") {
		t.Errorf("with env, the engine is told %q", told)
	}
}

// itself returns the path of the test binary.
func itself(t *testing.T) string {
	t.Helper()
	path, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// environmentOfChild returns what a process started as engines are prints of its environment.
func environmentOfChild(t *testing.T, command string, args ...string) []string {
	t.Helper()
	c, err := openProcess(Options{Command: command, Args: args})
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(c.out)
	if err != nil {
		t.Error(err)
	}
	c.wait() // tells that it has ended, as it was to
	c.in.Close()
	c.out.Close()
	var told []string
	for line := range strings.Lines(string(text)) {
		var variable string
		if _, err := fmt.Sscanf(line, "%q", &variable); err != nil {
			t.Fatalf("%q: %v", line, err)
		}
		told = append(told, variable)
	}
	return told
}
