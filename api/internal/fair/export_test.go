package fair

// Remembered is how many callers are.
func (q *Queue) Remembered() int {
	q.mu.Lock()
	defer q.mu.Unlock()
	return len(q.flows)
}
