using System.Globalization;
using System.Xml.Linq;
using Google.Protobuf.Collections;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Html;

/// <summary>Voltage and current over time: of a capture with contracts and what they allow, or of a log of power.</summary>
internal static class TracePlot
{
    private const int Height = 400;
    private const int MaxLabels = 12;
    private const long LongUs = 300_000_000;

    /// <summary>Null when nothing was measured.</summary>
    public static XElement? Of(CapturePlot plot, ProductReport report, string id)
    {
        Contract[] contracts =
        [
            .. report.Ports.Where(port => port.Port == plot.Port).SelectMany(static port => port.Arrangements)
                .Where(one => one.File == plot.File).SelectMany(static one => one.Contracts)
                .Where(static contract => contract.HasReadyUs && contract.Measured is { HasAllowedLeastMv: true })
                .DistinctBy(static contract => contract.MessageIndex),
        ];
        NeighbourChange[] changes = [.. report.NeighbourChanges.Where(change => change.File == plot.File && change.Port == plot.Port)];
        if (Panels.Of(plot.Trace, contracts.Select(contract => contract.Measured.AllowedMostMv).DefaultIfEmpty().Max()) is not { } panels)
        {
            return null;
        }

        List<(string, string)> keys = [("trace volts", "VBUS"), ("trace amperes", "IBUS")];
        List<XElement> parts = [];
        foreach (Contract contract in contracts)
        {
            (decimal from, decimal to) = (panels.Time(contract.ReadyUs), contract.HasEndedUs ? panels.Time(contract.EndedUs) : panels.Volts.ToX);
            parts.Add(panels.Volts.Box("band", from, to, contract.Measured.AllowedLeastMv / 1000m, contract.Measured.AllowedMostMv / 1000m));
            keys.Add(("band", "where VBUS has to stay under the contract"));
        }

        foreach (NeighbourChange change in changes)
        {
            if (change.Interruption is { } lost)
            {
                parts.Add(panels.Volts.Box("gone", panels.Time(lost.StartUs), lost.HasEndUs ? panels.Time(lost.EndUs) : panels.Volts.ToX, 0, panels.Volts.ToY));
                keys.Add(("gone", "VBUS left its contract"));
            }

            parts.Add(panels.Mark("event", change.AtUs, change.Event + " " + change.Neighbour));
            keys.Add(("event", "something happened at another port"));
        }

        parts.AddRange(panels.Traces(plot.Trace));
        parts.AddRange(contracts.Take(MaxLabels).Select(contract => Axes.Text(
            "label", panels.Volts.X(panels.Time(contract.ReadyUs)) + 3, panels.Volts.Y(contract.Measured.AllowedMostMv / 1000m) - 4, "start",
            $"{(contract.HasVoltageMv ? Amounts.Volts(contract.VoltageMv) : "")} {(contract.HasCurrentMa ? Amounts.Amperes(contract.CurrentMa) : "")}".Trim())));
        string name = plot.Port.Length > 0 ? $"{plot.File}, port {plot.Port}" : plot.File;
        return Figure.Of(id, $"VBUS and IBUS of {name}", $"{panels.About} The table of contracts has what was measured under each.", Height, keys.Distinct(), parts.ToArray());
    }

    /// <summary>Null when the log has no trace.</summary>
    public static XElement? Of(PowerLog log, string id) => Panels.Of(log.Trace, 0) is not { } panels ? null : Figure.Of(
        id, $"{log.File}: voltage and current", $"{panels.About} The table above has what it adds up to.", Height,
        [("trace volts", "voltage"), ("trace amperes", "current")], panels.Traces(log.Trace).ToArray());

    // Two panels over one time.
    private sealed record Panels(Axes Volts, Axes Amperes, decimal UnitUs, string Unit, string About)
    {
        public static Panels? Of(RepeatedField<TraceSpan> trace, int allowedMv)
        {
            if (trace.Count < 2 || trace[^1].ToUs <= trace[0].FromUs || !trace.Any(static span => span.HasMostMv))
            {
                return null;
            }

            (long from, long to) = (trace.Min(static span => span.FromUs), trace.Max(static span => span.ToUs));
            (decimal unit, string name) = to - from > 36 * LongUs ? (3_600_000_000m, "h") : to - from > LongUs ? (60_000_000m, "min") : (1_000_000m, "s");
            decimal volts = Math.Max(trace.Max(static span => span.HasMostMv ? span.MostMv : 0), allowedMv) / 1000m;
            decimal most = trace.Max(static span => span.HasMostMa ? span.MostMa : 0) / 1000m;
            decimal least = Math.Min(0, trace.Min(static span => span.HasLeastMa ? span.LeastMa : 0) / 1000m);

            // The clock of the capture, so that times of findings are found again; from 0 where that takes no more than a third of the room.
            decimal start = from > 0 && from <= (to - from) / 2 ? 0 : from / unit;
            decimal end = to / unit;
            return new Panels(
                new Axes(52, 28, Figure.Width - 76, 200, start, end, Axes.Round(volts * 1.08m)),
                new Axes(52, 268, Figure.Width - 76, 84, start, end, Axes.Round(Math.Max(most, 0.1m) * 1.1m)) { FromY = least < 0 ? -Axes.Round(-least) : 0 },
                unit, name,
                string.Create(CultureInfo.InvariantCulture, $"Up to {volts:0.###} V and {most:0.###} A from {start:0.###} to {end:0.###} {name}."));
        }

        public decimal Time(long us) => us / UnitUs;

        public XElement Mark(string kind, long us, string text) => Markup.Element(
            "g", Axes.Line(kind, Volts.X(Time(us)), Volts.Top, Volts.X(Time(us)), Amperes.Top + Amperes.Height),
            Axes.Text("label", Volts.X(Time(us)) + 3, Volts.Top + Volts.Height - 5, "start", text));

        public IEnumerable<XElement> Traces(RepeatedField<TraceSpan> trace)
        {
            yield return Volts.Grid("", "V");
            yield return Amperes.Grid(Unit, "A");
            yield return Path("trace volts", trace, Volts, static span => span.HasMostMv, static span => (span.LeastMv, span.MostMv));
            if (trace.Any(static span => span.HasMostMa))
            {
                yield return Path("trace amperes", trace, Amperes, static span => span.HasMostMa, static span => (span.LeastMa, span.MostMa));
            }
        }

        // Through the extremes of every stretch; a long time without measurements is left open.
        private XElement Path(
            string kind, RepeatedField<TraceSpan> trace, Axes axes, Func<TraceSpan, bool> has, Func<TraceSpan, (int Least, int Most)> of)
        {
            List<string> parts = [];
            long lastUs = 0;
            foreach (TraceSpan span in trace.Where(has))
            {
                bool isOn = parts.Count > 0 && Time(span.FromUs) - Time(lastUs) <= (axes.ToX - axes.FromX) / 8;
                (int least, int most) = of(span);
                string high = $"{Markup.Number(axes.X(Time(span.FromUs)))} {Markup.Number(axes.Y(most / 1000m))}";
                string low = $"{Markup.Number(axes.X(Time(span.ToUs)))} {Markup.Number(axes.Y(least / 1000m))}";
                parts.Add((isOn ? "L" : "M") + (high == low ? high : $"{high}L{low}"));
                lastUs = span.ToUs;
            }

            return Markup.Element("path", Markup.Class(kind), new XAttribute("d", string.Concat(parts)));
        }
    }
}
