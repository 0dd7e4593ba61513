package geometry

import (
	"sync"

	"gonum.org/v1/gonum/spatial/r3"
)

// Kept is a solid that keeps its first few cuts, for tanks that differ in nothing else
// but what they are counted for. It is safe for concurrent use.
type Kept struct {
	Solid

	lock sync.Mutex
	cuts map[r3.Vec]Cut
}

// mostKept is how many cuts are kept; of a mesh each is as large as the mesh.
const mostKept = 8

// Cut implements [Solid].
func (k *Kept) Cut(n r3.Vec) Cut {
	k.lock.Lock()
	cut, known := k.cuts[n]
	k.lock.Unlock()
	if known {
		return cut
	}
	cut = k.Solid.Cut(n)
	k.lock.Lock()
	defer k.lock.Unlock()
	if k.cuts == nil {
		k.cuts = map[r3.Vec]Cut{}
	}
	if len(k.cuts) < mostKept {
		k.cuts[n] = cut
	}
	return cut
}
