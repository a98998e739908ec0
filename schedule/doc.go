// Package schedule reads job files and turns them into what package winding and
// package batches compute with. It is the only layer that knows the clock:
// below it there are elapsed seconds from the start of the job.
package schedule
