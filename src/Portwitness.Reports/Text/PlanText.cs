using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>A plan as a list to tick off.</summary>
public static class PlanText
{
    /// <summary>Writes the plan.</summary>
    public static void Write(TextWriter writer, BenchPlan plan, TextStyle style)
    {
        ArgumentNullException.ThrowIfNull(plan);
        writer.WriteLine(style.Heading($"Before {VisibleText.Of(plan.Product)} is opened"));
        Paragraph.WriteWrapped(writer, style, "", "", Summary(plan));
        foreach (string remark in Remarks(plan))
        {
            Paragraph.WriteWrapped(writer, style, "", "", remark);
        }

        writer.WriteLine();
        foreach (PlanStep step in plan.Steps)
        {
            Paragraph.WriteWrapped(writer, style, $"{Box(step)} {Amounts.Number(step.Number),3}  ", "         ", VisibleText.Of(step.Text) + Behind(step));
        }

        if (plan.Unlisted > 0)
        {
            writer.WriteLine($"and {Amounts.Count(plan.Unlisted, "other step", "other steps")}");
        }

        NextStepText.WriteList(writer, "What opening it takes away", plan.LostByOpening, style);
        NextStepText.WriteList(writer, "Cautions", plan.Cautions, style);
    }

    internal static string Summary(BenchPlan plan)
    {
        int done = plan.Steps.Count(static step => step.State == "done");
        return $"{Amounts.Count(plan.Steps.Count, "step", "steps")}, {Amounts.Number(done)} of them done; about {Amounts.Duration(plan.TotalUs)} on the bench, {Amounts.Duration(plan.LeftUs)} of them left.";
    }

    internal static IEnumerable<string> Remarks(BenchPlan plan)
    {
        if (plan.Opened.Length > 0)
        {
            yield return $"It was opened on {plan.Opened}: what only a closed product shows is too late for this sample.";
        }

        if (plan.UnreadLines.Count > 0)
        {
            yield return $"Unread are {(plan.UnreadLines.Count == 1 ? "line" : "lines")} {string.Join(", ", plan.UnreadLines)} of the label; nothing is planned for what stands there.";
        }
    }

    private static string Box(PlanStep step) => step.State switch
    {
        "done" => "[x]",
        "partly" => "[~]",
        "too late" => "[!]",
        _ => "[ ]",
    };

    internal static string Behind(PlanStep step)
    {
        string time = step.TimeUs > 0 && step.State != "done" ? $" About {Amounts.Duration(step.TimeUs)}." : "";
        string state = step.State is "done" or "open" ? "" : $" {char.ToUpperInvariant(step.State[0])}{step.State[1..]}.";
        string evidence = step.Evidence.Length > 0 ? $" ({step.Evidence})" : "";
        return $"{state}{time}{evidence}";
    }
}
