using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>What ports answer to besides USB PD, and what that backs of the label.</summary>
internal static class SignallingText
{
    public static void Write(TextWriter writer, ProductReport report, TextStyle style)
    {
        if (report.Signalling.Count == 0)
        {
            return;
        }

        writer.WriteLine();
        writer.WriteLine(style.Heading("Other signalling"));
        Ports(report).Write(writer, "  ");
        if (report.RatingBackings.Count > 0)
        {
            writer.WriteLine();
            Ratings(report).Write(writer, "  ");
        }
    }

    /// <summary>What each port answers to.</summary>
    public static TextTable Ports(ProductReport report)
    {
        TextTable ports = new();
        ports.Add("port", "answers to", "at 5 V", "by");
        foreach (PortSignalling port in report.Signalling)
        {
            foreach (SignallingWord word in port.Words)
            {
                ports.Add(
                    port.Port, word.Answers ? word.Word : $"no {word.Word}",
                    word.HasLimitMa && word.Answers ? $"up to {Amounts.Amperes(word.LimitMa)}" : "", word.Answers ? word.Source : "");
            }
        }

        return ports;
    }

    /// <summary>Printed ratings that USB PD does not back.</summary>
    public static TextTable Ratings(ProductReport report)
    {
        TextTable ratings = new();
        ratings.Add("port", "printed, not backed by USB PD", "could be by", "label line");
        foreach (RatingBacking backing in report.RatingBackings)
        {
            ratings.Add(backing.Port, backing.Printed, By(backing), Amounts.Number(backing.LabelLine));
        }

        return ratings;
    }

    private static string By(RatingBacking backing) => backing.Outcome switch
    {
        "backed" => backing.By,
        "possible" => $"{backing.By}, perhaps",
        "too little" => $"nothing that was seen; {backing.By} is less",
        "not answered" => "nothing: it does not answer to this",
        "not recorded" => "not recorded",
        _ => "nothing that was seen",
    };
}
