package org.scarpway.run.closing;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.scarpway.run.progress.StageDone;
import org.scarpway.stage.StageFailure;

/**
 * The outcome of a run that got as far as its report.
 *
 * @param failures faults that ended single questions
 * @param report the drawing of the report
 */
public record JobOutcome(
    Path folder,
    List<StageFailure> failures,
    OutputMessages messages,
    Map<String, StageDone> stages,
    StageDone report,
    double wallS) {}
