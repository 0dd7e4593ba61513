package main

import (
	"math"
	"strings"
	"testing"
)

// FuzzMeasured: any text becomes a wiring that can be turned round, or an error of one
// line.
func FuzzMeasured(f *testing.F) {
	for _, s := range []string{"full=34.1, half=119.8", "low=241,high=34.1", "33ohm=34.1, 240ohm=241.1", "1/4=175", "12L=190", "85mm=120", "=", "full", "full=", "full=1e9999", "\n=\n", "needle 40 %=100"} {
		f.Add(s)
	}
	j, err := (&options{units: "metric"}).load("demo")
	if err != nil {
		f.Fatal(err)
	}
	plain := j.rig.Wiring
	f.Fuzz(func(t *testing.T, text string) {
		j.rig.Wiring = plain
		if err := j.install(text); err != nil {
			if strings.ContainsAny(err.Error(), "\r\n") {
				t.Fatalf("%q", err)
			}
			return
		}
		w := j.rig.Wiring
		if back := w.Sender(w.Input(100)); !(math.Abs(back-100) < 1e-3) {
			t.Fatalf("%q: 100 ohm comes back as %g", text, back)
		}
	})
}

// FuzzHave: any text becomes a drawer of resistors that rise, or an error of one line.
func FuzzHave(f *testing.F) {
	for _, s := range []string{"10,22,47", "10 22 22 47", "1k,4.7k,1M", "0", "-2", "1e400", ",", "1\n2", "47R", "10,,22"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		stock, _, err := benchFlags{have: text, series: "E24"}.stock()
		if err != nil {
			if strings.ContainsAny(err.Error(), "\r\n") {
				t.Fatalf("%q", err)
			}
			return
		}
		for i, v := range stock {
			if !(v > 0) || math.IsInf(v, 1) || i > 0 && v < stock[i-1] {
				t.Fatalf("%q: %v", text, stock)
			}
		}
		if len(stock) == 0 {
			t.Fatalf("%q: an empty drawer", text)
		}
	})
}
