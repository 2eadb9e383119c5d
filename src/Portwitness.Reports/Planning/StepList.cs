using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Planning;

/// <summary>The steps of a plan as they are found, numbered in order.</summary>
internal sealed class StepList
{
    public const string Done = "done";
    public const string Partly = "partly";
    public const string Open = "open";

    /// <summary>A discovery of what a port offers takes some minutes with plugging and saving (common practice, no source).</summary>
    public const long CaptureUs = 5 * Minute;

    /// <summary>How long a load is held (common practice, no source).</summary>
    public const long LoadUs = 10 * Minute;

    public const long Minute = 60_000_000;
    public const long Hour = 60 * Minute;

    private const int MaxSteps = 500;
    private const int MaxFiles = 3;

    private readonly List<PlanStep> _steps = [];

    /// <summary>The steps.</summary>
    public IReadOnlyList<PlanStep> Steps => _steps;

    /// <summary>Steps that did not fit.</summary>
    public int Unlisted { get; private set; }

    /// <summary>Adds a step; what it rests on names files, of which some are listed.</summary>
    public PlanStep Add(string kind, IEnumerable<string> ports, string text, string state, string evidence, long timeUs, int? line = null)
    {
        PlanStep step = new() { Number = _steps.Count + 1, Kind = kind, Ports = { ports }, Text = text, State = state, Evidence = evidence, TimeUs = timeUs };
        if (line is { } place and > 0)
        {
            step.LabelLine = place;
        }

        if (_steps.Count < MaxSteps)
        {
            _steps.Add(step);
        }
        else
        {
            Unlisted++;
        }

        return step;
    }

    /// <summary>"a.csv, b.csv and 2 more"; what was typed has no name.</summary>
    public static string Files(IEnumerable<string> files)
    {
        string[] all = [.. files.Select(static file => file.Length > 0 ? file : "read and typed").Distinct()];
        return string.Join(", ", all.Take(MaxFiles)) + (all.Length > MaxFiles ? System.FormattableString.Invariant($" and {all.Length - MaxFiles} more") : "");
    }

    /// <summary>Done, partly or open, by how many of several there are.</summary>
    public static string StateOf(int there, int wanted) => there >= wanted ? Done : there > 0 ? Partly : Open;
}
