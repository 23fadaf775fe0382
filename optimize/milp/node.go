package milp

import (
	"container/heap"
)

// Node is a box of whole steps.
type Node struct {
	Lo, Hi []float64
	Bound  float64
	order  int
	// Split says how the box came about, for the pseudo-costs.
	Split split
}

type nodeHeap []*Node

func (h nodeHeap) Len() int { return len(h) }

func (h nodeHeap) Less(i, j int) bool {
	if h[i].Bound != h[j].Bound {
		return h[i].Bound < h[j].Bound
	}
	return h[i].order < h[j].order
}

func (h nodeHeap) Swap(i, j int) { h[i], h[j] = h[j], h[i] }

func (h *nodeHeap) Push(x any) { *h = append(*h, x.(*Node)) }

func (h *nodeHeap) Pop() any {
	old := *h
	n := old[len(old)-1]
	*h = old[:len(old)-1]
	return n
}

// newest takes the node that was split off last: near it a plunge that failed may
// succeed.
func (h *nodeHeap) newest() *Node {
	at := 0
	for i, n := range *h {
		if n.order > (*h)[at].order {
			at = i
		}
	}
	return heap.Remove(h, at).(*Node)
}

// Bounds sets the columns of the linear program to the box.
func (n *Node) Bounds(cols []Column, set func(j int, lower, upper float64)) {
	for j, c := range cols {
		// The last whole step may lie over the cap by the rounding that integralTol
		// allows.
		hi := min(n.Hi[j]*c.Step, c.Cap)
		lo := min(n.Lo[j]*c.Step, hi)
		set(2*j, max(0, lo-c.Target), max(0, hi-c.Target))
		set(2*j+1, max(0, c.Target-hi), max(0, c.Target-lo))
	}
}

func (n *Node) child(bound float64) *Node {
	return &Node{Lo: append([]float64(nil), n.Lo...), Hi: append([]float64(nil), n.Hi...), Bound: bound}
}
