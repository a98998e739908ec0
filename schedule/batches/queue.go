package batches

import "cmp"

// A node is a position in the queue.
type node struct {
	position *position
	pots     int // that it must come to at least
	serial   int // order of finding, so that ties are settled the same way every time
}

// queue holds the positions still to be taken up, the most promising first.
type queue struct {
	search *search
	nodes  []*node
}

func (q *queue) Len() int { return len(q.nodes) }

func (q *queue) Less(i, j int) bool {
	a, b := q.nodes[i], q.nodes[j]
	p, r := a.position, b.position
	// The pots still to come stand in for those mixed.
	order := cmp.Or(
		cmp.Compare(p.score.Changes, r.score.Changes),
		cmp.Compare(p.score.Gelled, r.score.Gelled),
		cmp.Compare(a.pots, b.pots),
		q.search.compare(p, r),
		cmp.Compare(r.stop, p.stop),
		cmp.Compare(a.serial, b.serial),
	)
	return order < 0
}

func (q *queue) Swap(i, j int) { q.nodes[i], q.nodes[j] = q.nodes[j], q.nodes[i] }

func (q *queue) Push(x any) { q.nodes = append(q.nodes, x.(*node)) }

func (q *queue) Pop() any {
	n := len(q.nodes) - 1
	last := q.nodes[n]
	q.nodes[n] = nil
	q.nodes = q.nodes[:n]
	return last
}
