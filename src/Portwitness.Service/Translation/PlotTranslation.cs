using System.Collections.Immutable;
using Portwitness.Analysis;
using Portwitness.Analysis.Plots;
using Portwitness.Product;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>What plots are drawn from.</summary>
internal static class PlotTranslation
{
    private const int MaxLines = 300;

    /// <summary>Adds a plot for each capture, and the traces of the logs, which are in the report already.</summary>
    public static void AddPlots(this Wire.ProductReport report, ProductAnalysis analysis)
    {
        report.Plots.AddRange(analysis.Captures.Select(ToContract));
        foreach ((Wire.PowerLog log, ImmutableArray<TraceSpan> trace) in report.PowerLogs.Zip(analysis.Energy.Logs, (log, own) => (log, own.Trace)))
        {
            log.Trace.AddRange(trace.Select(ToContract));
        }
    }

    private static Wire.CapturePlot ToContract(CaptureAnalysis capture)
    {
        Wire.CapturePlot plot = new()
        {
            File = capture.File,
            Port = capture.Port,
            TimelineLeftOut = Math.Max(0, capture.Timeline.Length - MaxLines),
        };
        plot.Trace.AddRange(capture.Trace.Select(ToContract));
        plot.Timeline.AddRange(capture.Timeline.Take(MaxLines).Select(TimelineTranslation.ToContract));
        return plot;
    }

    private static Wire.TraceSpan ToContract(TraceSpan span)
    {
        Wire.TraceSpan translated = new() { FromUs = span.FromUs, ToUs = span.ToUs };
        if (span is { LeastMillivolts: { } leastVolts, MostMillivolts: { } mostVolts })
        {
            (translated.LeastMv, translated.MostMv) = (leastVolts, mostVolts);
        }

        if (span is { LeastMilliamperes: { } leastAmperes, MostMilliamperes: { } mostAmperes })
        {
            (translated.LeastMa, translated.MostMa) = (leastAmperes, mostAmperes);
        }

        return translated;
    }
}
