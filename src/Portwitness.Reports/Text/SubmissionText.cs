using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>What was submitted.</summary>
public static class SubmissionText
{
    /// <summary>A line for each, the newest first.</summary>
    public static void Write(TextWriter writer, ListSubmissionsResponse found)
    {
        if (found.Submissions.Count == 0)
        {
            writer.WriteLine("No submission fits.");
            return;
        }

        TextTable table = new();
        table.Add("submitted (UTC)", "product file", "state", "tries", "key", "problem");
        foreach (Submission submission in found.Submissions)
        {
            table.Add(
                HistoryText.Time(submission.CreatedUs), submission.Name, submission.State == SubmissionState.Parked ? "set aside" : Word(submission), Amounts.Number(submission.Tries), submission.Key, submission.Problem);
        }

        table.Write(writer, "");
        if (found.NextPageToken.Length > 0)
        {
            writer.WriteLine("There may be more: ask for more with --most, or for one state with --state.");
        }
    }

    /// <summary>"queued", "done, report 17", "set aside after 5 tries".</summary>
    public static string Word(Submission submission) => submission.State switch
    {
        SubmissionState.Queued => "queued",
        SubmissionState.Done => string.Create(CultureInfo.InvariantCulture, $"done, report {submission.ReportId}"),
        SubmissionState.Parked => $"set aside after {Amounts.Count(submission.Tries, "try", "tries")}: {VisibleText.Of(submission.Problem)}",
        _ => "incomplete",
    };
}
