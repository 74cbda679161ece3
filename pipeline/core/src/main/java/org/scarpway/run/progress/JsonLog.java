package org.scarpway.run.progress;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintStream;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.scarpway.run.plan.JobPlan;

/**
 * Events for schedulers: one JSON object per line, as described by event.schema.json. Progress
 * events are written at most once a second.
 */
public final class JsonLog implements RunLog {
  private static final long INTERVAL_NS = 1_000_000_000L;
  private static final ObjectMapper JSON = new ObjectMapper();

  private final PrintStream err;
  private String job = "";
  private String stage = "";
  private final Pace pace = new Pace(INTERVAL_NS);

  public JsonLog(PrintStream err) {
    this.err = err;
  }

  @Override
  public synchronized void job(String name) {
    job = name;
    tell(event("job"));
  }

  @Override
  public synchronized void plan(JobPlan plan) {
    ObjectNode e = event("plan");
    e.put("job", plan.job());
    e.put("estimated_s", plan.seconds());
    e.put("heap_mb", plan.heapMb());
    e.put("disk_mb", plan.diskMb());
    e.put("scratch_mb", plan.scratchMb());
    ArrayNode rows = e.putArray("stages");
    for (JobPlan.Row r : plan.allRows()) {
      ObjectNode row = rows.addObject();
      row.put("stage", r.id());
      row.put("state", r.state().word());
      row.put("cells", r.cells());
      row.put("work", r.work().work());
      row.put("estimated_s", r.seconds());
      r.why().forEach(row.withArray("why")::add);
    }
    tell(e);
  }

  @Override
  public synchronized void stage(String id) {
    stage = id;
    tell(event("stage").put("stage", id));
  }

  @Override
  public synchronized void done(String id, StageDone d) {
    ObjectNode e = event("stage-done").put("stage", id).put("from", d.from().word());
    tell(e.put("wall_s", d.wallS()).put("cells", d.cells()).put("peak_heap_mb", d.peakHeapMb()));
  }

  @Override
  public synchronized void note(String line) {
    tell(event("note").put("message", line));
  }

  @Override
  public synchronized void failed(String failedJob, int code, String line) {
    tell(event("failed").put("job", failedJob).put("code", code).put("message", line));
  }

  @Override
  public synchronized void finished(String finishedJob, double wallS) {
    tell(event("finished").put("job", finishedJob).put("wall_s", wallS));
  }

  @Override
  public synchronized void begin(String newWhat, long newTotal) {
    pace.begin(newWhat, newTotal);
  }

  @Override
  public synchronized void advance(long more) {
    if (!pace.advance(more)) {
      return;
    }
    ObjectNode e = event("progress").put("stage", stage).put("what", pace.what());
    e.put("done", pace.done()).put("total", pace.total()).put("per_s", pace.perS());
    if (!Double.isNaN(pace.leftS())) {
      e.put("left_s", pace.leftS());
    }
    Runtime r = Runtime.getRuntime();
    tell(e.put("heap_mb", (r.totalMemory() - r.freeMemory()) >> 20));
  }

  @Override
  public void end() {
    // The end of a piece of work is not an event; the end of its stage is.
  }

  private ObjectNode event(String name) {
    ObjectNode e = JSON.createObjectNode().put("event", name);
    e.put("time", Instant.now().truncatedTo(ChronoUnit.MILLIS).toString());
    return e.put("job", job);
  }

  private void tell(ObjectNode event) {
    try {
      err.println(JSON.writeValueAsString(event));
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("numbers and texts are always JSON", e);
    }
  }
}
