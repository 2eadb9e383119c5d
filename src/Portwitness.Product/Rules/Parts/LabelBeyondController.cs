using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Controllers;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Parts;

/// <summary>More is printed than the controller can do.</summary>
public sealed class LabelBeyondController : ControllerRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "label-beyond-controller",
        Severity = Severity.Mismatch,
        Title = "More is printed than the controller can do",
        Clause = "printed label; the controller's data sheet as stated",
        Why = "A port gives no more than its controller lets it. A label that promises more was made for another part, or another part was fitted.",
        Evidence = "The controller under \"parts:\" with its power or protocols and the ports that it drives; totals and combinations against all controllers "
            + "of their ports, where a power of one controller that may be of all its ports cannot be told. A power that only a protocol outside USB PD "
            + "reaches, and a protocol that another part may answer to, cannot be told.",
        Example = new ProductExample(
            "0x0801912C", "100 W is printed; the controller does 65 W.",
            Members: "label: \"USB-C: 100W Max\"\nparts:\n  - {part: U1, kind: controller, watts: 65, ports: [C]}"),
        Category = RuleCategory.Parts,
    };

    /// <inheritdoc/>
    public override void Check(ControllerUse use, IProductHitSink hits)
    {
        foreach (PrintedOutput output in use.Label?.Outputs.Where(use.Drives) ?? [])
        {
            CheckPower(use, output, hits);
            if (!use.Protocols.IsEmpty)
            {
                CheckProtocols(use, output, hits);
            }
        }

        if (use.Label is { } label && use.All is [var first, ..] && first.Controller == use.Controller)
        {
            CheckTogether(use, label, hits);
        }
    }

    // What ports give together is not more than their controllers do, were each controller's power that of each of its ports. A controller
    // of several ports may have it for all of them: then it cannot be told.
    private void CheckTogether(ControllerUse use, Label label, IProductHitSink hits)
    {
        foreach (PrintedCombination together in label.Combinations)
        {
            foreach (PrintedShare share in together.Split.Where(static share => share.Power is not null))
            {
                CheckSum(use, [share.Port], share.Power!.Value.Milliwatts, together.At, hits);
            }

            if ((together.Total?.Milliwatts ?? PrintedPowers.Sum(together)) is { } printed)
            {
                CheckSum(use, together.Ports, printed, together.At, hits);
            }
        }

        string[] outputs = [.. label.Outputs.Where(static output => output.Alternating.IsEmpty).Select(static output => output.Port)];
        if (label.Total is { } total && label.Pads.IsEmpty && outputs.Length > 1)
        {
            CheckSum(use, outputs, total.Power.Milliwatts, total.At, hits);
        }
    }

    private void CheckSum(ControllerUse use, IReadOnlyList<string> ports, long printed, Place at, IProductHitSink hits)
    {
        ControllerUse? only = use.All.FirstOrDefault(one => one.IsCertain && one.Controller.Power is not null
            && ports.All(port => one.Ports.Any(own => PortNames.Same(own, port))));
        long? most = use.MostOf(ports);
        long? shared = only?.Controller.Power!.Value.Milliwatts;
        bool isBeyond = most is { } sum && printed > sum + PrintedPowers.Tolerance(sum);
        bool mayBeBeyond = shared is { } one && printed > one + PrintedPowers.Tolerance(one);
        if (!isBeyond && !mayBeBeyond)
        {
            return;
        }

        string names = string.Join(", ", use.All.Where(one => one.Ports.Any(own => ports.Any(port => PortNames.Same(own, port)))).Select(static one => one.Controller.Text));
        Phrase limit = Phrase.Of($"{PrintedPowers.Watts(isBeyond ? most!.Value : shared!.Value)}");
        hits.Report(
            this,
            new Hit(
                isBeyond ? Verdict.Fails : Verdict.CannotTell,
                $"{PrintedPowers.Watts(printed)} is printed for {string.Join("+", ports)}; {names} can do {limit}.")
            {
                NextStep = isBeyond ? null : Phrase.Of($"Look in the data sheet of {only!.Controller.Name} whether {limit} is of each of its ports or of all."),
                LabelLine = at.Line, LabelColumn = at.Column, Expected = $"at most {limit}", Observed = $"{PrintedPowers.Watts(printed)}",
            },
            new ProductPlace("", [.. ports]));
    }

    private void CheckPower(ControllerUse use, PrintedOutput output, IProductHitSink hits)
    {
        if (use.Controller.Power is not { } most)
        {
            return;
        }

        long owed = Math.Max(
            OtherProtocolRatings.MaximumOfPowerDelivery(output)?.Power.Milliwatts ?? 0,
            PrintedPowers.Largest(output.Fixed.Where(static mode => Protocols.IsPowerDelivery(mode.Protocol)))?.Milliwatts ?? 0);
        long printed = Math.Max(
            Math.Max(owed, PrintedPowers.Of(output) ?? 0), output.ProtocolMaxima.Select(static one => (long)one.Power.Milliwatts).DefaultIfEmpty(0).Max());
        long limit = most.Milliwatts + PrintedPowers.Tolerance(most.Milliwatts);
        if (printed <= limit)
        {
            return;
        }

        bool isOwed = owed > limit;
        Place at = output.Maximum?.At ?? output.At;
        hits.Report(
            this,
            Beyond(
                use, isOwed, $"{output.Port} is printed with {PrintedPowers.Watts(isOwed ? owed : printed)}; {use.Controller.Name}, which drives it, does {most}.",
                $"Ask which part gives what is printed of {output.Port} for other protocols than USB PD.") with
            {
                LabelLine = at.Line, LabelColumn = at.Column, Expected = $"at most {most}", Observed = $"{PrintedPowers.Watts(isOwed ? owed : printed)}",
            },
            new ProductPlace(output.Port, []));
    }

    private void CheckProtocols(ControllerUse use, PrintedOutput output, IProductHitSink hits)
    {
        IEnumerable<(string? Name, Place At)> named = output.Fixed.Select(static mode => (mode.Protocol, mode.At))
            .Concat(output.Ranges.Select(static range => (range.Kind, range.At))).Concat(output.ProtocolMaxima.Select(static most => ((string?)most.Protocol, most.At)));
        foreach ((string? name, Place at) in named.Where(static one => !string.IsNullOrWhiteSpace(one.Name)).DistinctBy(static one => one.Name))
        {
            ProtocolWord printed = ProtocolWord.Read(name!);
            bool? has = ProtocolWord.Have(use.Protocols, printed);
            if (has == true)
            {
                continue;
            }

            // Another part of the board may answer to what is no protocol of USB PD.
            hits.Report(
                this,
                Beyond(
                    use, has == false && printed.Meaning != ProtocolMeaning.Other,
                    $"{output.Port} is printed with {printed.Text}; {use.Controller.Name}, which drives it, does {Phrase.JoinNames(", ", use.Controller.Protocols)}.",
                    $"Look in the data sheet of {use.Controller.Name} for {printed.Text}, and name it under \"protocols:\"; or name the part that answers to it.") with
                {
                    LabelLine = at.Line, LabelColumn = at.Column, Expected = Phrase.JoinNames(", ", use.Controller.Protocols), Observed = $"{printed.Text}",
                },
                new ProductPlace(output.Port, []));
        }
    }
}
