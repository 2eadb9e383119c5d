using System.Text;
using Portwitness.Analysis;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.Tests;

namespace Portwitness.Testing;

/// <summary>Runs the analysis of one capture on text.</summary>
public static class CaptureRun
{
    public static CaptureAnalysis Text(string text, CaptureOptions? options = null)
    {
        CaptureAnalyzer analyzer = new(options ?? new CaptureOptions { File = "capture" });
        analyzer.Write(Encoding.UTF8.GetBytes(text));
        return analyzer.Complete();
    }

    /// <summary>The same where every finding is known word for word.</summary>
    public static CaptureAnalysis Told(string text, CaptureOptions? options = null)
    {
        CaptureAnalysis analysis = Text(text, options);
        GoldenFindings.Check(analysis.Findings);
        return analysis;
    }

    /// <summary>A real log of the capture tests: from public kernel mailing lists.</summary>
    public static CaptureAnalysis RealLog(string name) =>
        Text(File.ReadAllText(Repository.PathOf("tests", "Portwitness.Captures.Tests", "Data", name)));

    /// <summary>"fixed 5 V 3 A, fixed 9 V 3 A".</summary>
    public static string ListText(this Advertisement list) => string.Join(", ", list.Objects.Select(o => o.ToText()));
}
