package main

import (
	"flag"
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite what the scripts compare with")

// TestMain runs the scripts against the real main.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"floatarc": main})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{Dir: "testdata/script", UpdateScripts: *update, RequireUniqueNames: true})
}

// TestNewRigsLoad fills every template and reads it back without a refusal.
func TestNewRigsLoad(t *testing.T) {
	for _, kind := range newKinds {
		for _, units := range []string{"metric", "us", "imperial"} {
			o := &options{units: units}
			text, err := newRig(kind, o.system())
			if err != nil {
				t.Fatal(err)
			}
			path := t.TempDir() + "/rig.toml"
			if err := os.WriteFile(path, text, 0o600); err != nil {
				t.Fatal(err)
			}
			j, err := o.load(path)
			if err != nil {
				t.Errorf("%s, %s: %v", kind, units, err)
				continue
			}
			for _, w := range j.warnings(o.thinner(path)) {
				if w.Code != "float_missing" && w.Code != "mark_blind" {
					t.Errorf("%s, %s: %s: %s", kind, units, w.Code, w.Text)
				}
			}
		}
	}
}
