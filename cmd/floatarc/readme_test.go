package main

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"
)

// TestReadmeRigLoads reads the rig that the README prints.
func TestReadmeRigLoads(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	rig := regexp.MustCompile("(?s)```toml\n(.*?)```").FindSubmatch(text)
	if rig == nil {
		t.Fatal("the README holds no rig")
	}
	path := filepath.Join(t.TempDir(), "rig.toml")
	if err := os.WriteFile(path, rig[1], 0o600); err != nil {
		t.Fatal(err)
	}
	o := &options{units: "metric"}
	j, err := o.load(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range j.warnings(o.thinner(path)) {
		if w.Code == "rated_differs" {
			t.Errorf("%s: %s", w.Code, w.Text)
		}
	}
}
