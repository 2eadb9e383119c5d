using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Planning;

/// <summary>
/// Plans what is to be captured and measured of a product before it is opened, from its label, and ticks off what its report shows. Nothing is planned
/// for what is unread.
/// </summary>
public static class BenchPlanner
{
    /// <summary>The plan.</summary>
    /// <param name="report">The product's report, of a label alone or of everything that there is.</param>
    public static BenchPlan Of(ProductReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        StepList steps = new();
        BenchPlan plan = new() { Product = report.Product, Opened = report.Opened };
        if (report.Label is { } label)
        {
            AddAll(report, label, steps);
            plan.UnreadLines.AddRange(label.Unread.Where(static span => span.MayRate).Select(static span => span.Line).Distinct());
        }
        else
        {
            steps.Add("label", [], "Write what is printed on the product under \"label:\"; the rest of the plan comes from it.", StepList.Open, "", 5 * StepList.Minute);
        }

        foreach (PlanStep step in steps.Steps.Where(step => report.Opened.Length > 0 && step.NeedsClosed && step.State != StepList.Done))
        {
            step.State = "too late";
        }

        plan.Steps.AddRange(steps.Steps);
        plan.Unlisted = steps.Unlisted;
        plan.TotalUs = steps.Steps.Sum(static step => step.TimeUs);
        plan.LeftUs = steps.Steps.Where(static step => step.State is StepList.Open or StepList.Partly).Sum(static step => step.TimeUs);
        plan.LostByOpening.AddRange(Lost(report));
        plan.Cautions.AddRange(report.Cautions);
        return plan;
    }

    private static void AddAll(ProductReport report, Label label, StepList steps)
    {
        bool isPack = PackSteps.Batteries(label).Any() || report.Pack.Count > 0;
        AddLabel(label, steps);
        if (isPack)
        {
            AddMeasures(report, steps);
        }

        PortSteps ports = new(report, steps);
        PrintedOutput[] outputs = [.. label.Outputs.Where(static output => output.Alternating.Count == 0)];
        foreach (PrintedOutput output in outputs)
        {
            ports.AddCaptures(output);
        }

        foreach (PrintedOutput output in outputs)
        {
            ports.AddLoads(output);
        }

        TogetherSteps together = new(report, steps);
        foreach (PrintedCombination combination in label.Combinations.DistinctBy(static one => string.Join('+', one.Ports.Order(StringComparer.Ordinal))))
        {
            together.Add(combination);
        }

        PackSteps pack = new(report, steps);
        long? energy = PackSteps.Batteries(label).Where(static one => one.HasEnergyMwh).Select(static one => (long?)one.EnergyMwh).Max()
            ?? PackSteps.Batteries(label).Where(static one => one is { HasCapacityMah: true, HasNominalVoltageMv: true }).Select(static one => (long?)one.CapacityMah * one.NominalVoltageMv / 1000).Max();
        pack.AddSustain(label, isPack, energy);
        if (isPack)
        {
            pack.AddDischarge(label, energy);
            pack.AddCharges(label, energy);
        }

        AddMains(report, label, steps);
    }

    private static void AddLabel(Label label, StepList steps)
    {
        bool isOpen = label.Unread.Any(static span => span.MayRate);
        bool isUnchecked = label.Photo is { Checked: false };
        steps.Add(
            "label", [], "Photograph every side that is printed, and compare the text of the label with it.", isUnchecked ? StepList.Open : isOpen ? StepList.Partly : StepList.Done,
            isUnchecked ? "the text of a photo was compared by nobody" : isOpen ? "some of its lines are unread" : "label:", 5 * StepList.Minute);
    }

    private static void AddMeasures(ProductReport report, StepList steps)
    {
        bool hasMass = report.Pack.Any(static figure => figure.About == "the product by mass");
        bool hasSize = report.Pack.Any(static figure => figure.About == "the product by volume");
        PlanStep step = steps.Add(
            "measures", [], "Weigh the product, and measure its three sides (\"battery:\" with \"mass_g:\" and \"size_mm:\").", StepList.StateOf((hasMass ? 1 : 0) + (hasSize ? 1 : 0), 2),
            (hasMass, hasSize) switch { (true, true) => "battery:", (true, _) => "its mass; missing its size", (_, true) => "its size; missing its mass", _ => "" }, 5 * StepList.Minute);
        step.NeedsClosed = true;
    }

    private static void AddMains(ProductReport report, Label label, StepList steps)
    {
        PrintedInput? mains = label.Inputs.FirstOrDefault(static input => input.Alternating);
        if (mains is null)
        {
            return;
        }

        int there = report.Adapter.Any(static run => run.HasAverageEfficiencyPpm) ? 1 : 0;
        there += report.Adapter.Any(static run => run.HasNoLoadMw) ? 1 : 0;
        steps.Add(
            "mains", [], "Measure the power from the mains without a load, and at 25, 50, 75 and 100 % of the printed current (\"adapter:\"), behind a meter that is made for it.",
            StepList.StateOf(there, 2), there > 0 ? "adapter:" : "", 90 * StepList.Minute, mains.Line);
    }

    private static IEnumerable<string> Lost(ProductReport report)
    {
        yield return "The seal and, as a rule, the warranty: what was opened is no sample of the batch any more.";
        yield return "The temperature of the closed housing, and how long it holds its power with it.";
        yield return "Mass and size as sold, and how it falls and insulates.";
        if (report.Label is { } label && PackSteps.Batteries(label).Any())
        {
            yield return "Its carriage: what was opened is not what was tested, and a carrier may refuse it.";
        }
    }
}
