using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Offers;

/// <summary>What to do when a claim cannot be told, in one place so that it reads the same everywhere.</summary>
public static class NextSteps
{
    /// <summary>For a claim that another protocol may keep.</summary>
    public static readonly OtherProtocolStep OtherProtocol =
        new("Record the port's D+/D− or UFCS negotiation, or measure it with a device of that protocol; a PD capture does not show it.");

    /// <summary>For offers of EPR mode.</summary>
    public static readonly Phrase EprCable = "Capture with an EPR cable and a device that enters EPR mode.";

    /// <summary>For ports that may list less before their first contract.</summary>
    public static readonly Phrase AfterContract =
        "Capture on until two seconds after the first contract; before it a managed port may list less.";

    /// <summary>The same for offers that were typed.</summary>
    public static readonly Phrase UnderContract =
        "Read the offers while a device charges, and say \"under_contract: true\" beside them; before its first contract a managed port may list less.";

    /// <summary>For recordings that show a list in part.</summary>
    public static readonly Phrase WholeList =
        "Record the messages themselves, or use a newer kernel: this recording does not show every object of the list.";

    /// <summary>For captures of which nothing says what happened first.</summary>
    public static readonly Phrase OneClock =
        "Record these ports on one clock, in one file or with \"with\" and \"offset\" in the product file, and say what was attached when.";

    /// <summary>For wireless pads.</summary>
    public static readonly Phrase Pad = "Measure what the pad gives with a wireless receiver; nothing of USB PD shows it.";

    /// <summary>To capture ports together in one attach order.</summary>
    public static Phrase CaptureInOrder(IReadOnlyList<string> order)
    {
        string[] measured = [.. order.Where(static port => !HasCcLine(port))];
        string[] captured = [.. order.Where(HasCcLine)];
        Phrase capture = measured.Length == 0 ? "capture all of them"
            : captured.Length == 0 ? "measure all of them under load"
            : Phrase.Of($"capture {Phrase.JoinNames(" and ", captured)}, measure {Phrase.JoinNames(" and ", measured)} under load");
        return $"Attach {Phrase.JoinNames(", then ", order)}, {capture}, and state that order.";
    }

    /// <summary>To look at a line of which characters were guessed, or recognised on a photo.</summary>
    public static Phrase ConfirmLine(Label label, int line) => label.IsUnchecked
        ? $"Compare line {line} of the label with the photo; then write \"checked: true\" beside \"photo:\", or put it right under \"label_corrections:\"."
        : Phrase.Of($"Look at line {line} of the label: some of its characters were taken for others; settle it with \"label_corrections:\".");

    /// <summary>The same of several lines.</summary>
    public static Phrase ConfirmLines(Label label, IEnumerable<int> lines) => label.IsUnchecked
        ? $"Compare lines {Numbers(lines)} of the label with the photo; then write \"checked: true\" beside \"photo:\", or put them right under \"label_corrections:\"."
        : Phrase.Of($"Look at lines {Numbers(lines)} of the label: some of their characters were taken for others; settle them with \"label_corrections:\".");

    /// <summary>To read the rest of several lines.</summary>
    public static Phrase ReadLines(IEnumerable<int> lines) =>
        $"Look at lines {Numbers(lines)} of the label: ratings of them were read in part; settle them with \"label_corrections:\".";

    private static Phrase Numbers(IEnumerable<int> lines) => Phrase.Join(", ", lines.Select(static line => Phrase.Of($"{line}")));

    /// <summary>To read the rest of a line.</summary>
    public static Phrase ReadLine(int line) =>
        $"Look at line {line} of the label: a rating of it was read in part; settle it with \"label_corrections:\".";

    /// <summary>To capture a port under an arrangement.</summary>
    public static Phrase Capture(string port, IReadOnlyList<string> inUse)
    {
        Phrase when = inUse.Count <= 1 ? "alone" : Phrase.Of($"while {Phrase.JoinNames(" and ", inUse)} are in use");
        return HasCcLine(port)
            ? Phrase.Of($"Capture {port} {when}.")
            : $"Measure {port} {when}, under its printed loads, and write what was read under \"loads:\", or what it answers to under \"signalling:\"; it has no CC line to capture.";
    }

    /// <summary>Whether a port can have the CC line on which USB PD is captured, by its name.</summary>
    public static bool HasCcLine(string port) => PrintedPowers.MayBePd(PortNames.Shorten(port));
}

/// <summary>The step for a claim that USB PD cannot settle, because another protocol is printed or may be meant.</summary>
public sealed record OtherProtocolStep(Phrase Text);
