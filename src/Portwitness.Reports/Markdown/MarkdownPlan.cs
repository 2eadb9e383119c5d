using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Markdown;

/// <summary>A plan as a list of tasks.</summary>
public static class MarkdownPlan
{
    /// <summary>Writes the plan as a list of tasks (GitHub-flavoured Markdown, 5.3).</summary>
    public static void Write(TextWriter writer, BenchPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        writer.WriteLine($"# Before {MarkdownText.Of(plan.Product)} is opened");
        writer.WriteLine();
        foreach (string remark in PlanText.Remarks(plan).Prepend(PlanText.Summary(plan)))
        {
            writer.WriteLine(MarkdownText.Of(remark));
            writer.WriteLine();
        }

        foreach (PlanStep step in plan.Steps)
        {
            writer.WriteLine($"- [{(step.State == "done" ? "x" : " ")}] {MarkdownText.Of($"{Amounts.Number(step.Number)}. {step.Text}{PlanText.Behind(step)}")}");
        }

        foreach ((string heading, IEnumerable<string> sentences) in ((string, IEnumerable<string>)[])[("What opening it takes away", plan.LostByOpening), ("Cautions", plan.Cautions)])
        {
            writer.WriteLine();
            writer.WriteLine($"## {heading}");
            writer.WriteLine();
            foreach (string sentence in sentences)
            {
                writer.WriteLine($"- {MarkdownText.Of(sentence)}");
            }
        }
    }
}
