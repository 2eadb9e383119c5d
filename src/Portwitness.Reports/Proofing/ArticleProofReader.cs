using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Proofing;

/// <summary>
/// Looks up every number of an article in a product's report. A number differs where the sentence says of what it is (a port and a promise, a
/// capacity, a mass) and the record has another value of that; where it does not say so, there is no evidence, and the writer is asked.
/// </summary>
public static class ArticleProofReader
{
    private const int MaxListed = 2_000;
    private const int MaxShown = 3;

    // "about 60 W" (a default, not a standard).
    private const decimal ApproximateShare = 0.05m;

    /// <summary>Holds an article against a report.</summary>
    /// <param name="name">The article's name.</param>
    /// <param name="text">Its text, plain or in Markdown.</param>
    /// <param name="report">The product's report.</param>
    public static ArticleProof Read(string name, string text, ProductReport report)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(report);
        ArticleReader article = new(text);
        RecordedAmounts record = new(report);
        ArticlePorts ports = new(record.Ports, [.. record.Cables]);
        Dictionary<ArticleAmount, string> wrong = ArticleConversions.Wrong(article);
        List<ReadAmount> amounts = [];
        foreach (IGrouping<int, ArticleAmount> sentence in article.Amounts.GroupBy(static amount => amount.Sentence))
        {
            ArticleSentence at = article.Sentences[sentence.Key];
            string words = text[at.Start..at.End];
            List<(string Port, int At)> named = ports.In(words);
            SentenceWords said = new(words);
            ArticleAmount[] all = [.. sentence];
            amounts.AddRange(all.Select(amount => new ReadAmount(amount, at, said, PortOf(named, amount.Start - at.Start))
            {
                NamesVoltage = Array.Exists(all, static one => one.Unit.Dimension == ArticleDimension.Voltage),
                IsOfPort = IsNextTo(named, all, amount, at.Start),
                Beside = all,
            }));
        }

        List<(ReadAmount Read, string Outcome, string Evidence)> found = [];
        foreach (ReadAmount read in amounts)
        {
            (string outcome, string evidence) = wrong.TryGetValue(read.Amount, out string? conversion)
                ? ("converted_wrongly", conversion) : LookUp(article, read, record.All);
            found.Add((read, outcome, evidence));
        }

        Dictionary<ArticleAmount, string> contradicting = ArticleContradictions.Find(
            article, [.. found.Where(static one => one.Outcome is "agrees" or "no_evidence").Select(static one => one.Read)]);
        ArticleProof proof = new() { Article = name, Product = report.Product, Language = article.Language, Counts = new ProofCounts() };
        foreach ((ReadAmount read, string alone, string known) in found)
        {
            (string outcome, string evidence) = contradicting.TryGetValue(read.Amount, out string? other) ? ("contradicts", other) : (alone, known);
            Count(proof.Counts, outcome);
            if (proof.Entries.Count == MaxListed)
            {
                proof.Unlisted++;
                continue;
            }

            (int line, int column) = article.PlaceOf(read.Amount.Start);
            proof.Entries.Add(new ProofEntry
            {
                Line = line, Column = column, Text = article.TextOf(read.Amount), Sentence = article.TextOf(read.Sentence), Port = read.Port,
                Outcome = outcome, Evidence = evidence,
            });
        }

        return proof;
    }

    private static (string Outcome, string Evidence) LookUp(ArticleReader article, ReadAmount read, IReadOnlyList<RecordedAmount> record)
    {
        ArticleAmount amount = read.Amount;
        decimal share = read.Says("approximate") ? ApproximateShare : 0;
        RecordedAmount[] alike = [.. record.Where(one => one.Dimension == amount.Unit.Dimension && (one.Port == read.Port || read.Port.Length == 0 || one.Port.Length == 0))];
        RecordedAmount[] same = [.. alike.Where(one => amount.IsOf(one.Least, one.Most, share))];
        string topic = read.Topic(amount.Unit.Dimension);
        if (topic.Length > 0 && same.Any(static one => one.Topic.Length > 0) && !same.Any(one => one.Topic == topic || one.Topic.Length == 0))
        {
            same = [];
        }

        RecordedAmount[] promised = read.Says("measured") || read.NamesVoltage ? [] : [.. Meant(read, "", alike)];
        if (promised.Length > 0)
        {
            same = [.. same.Where(one => promised.Contains(one) || one.Kind == RecordKind.Told)];
        }

        if (same.Length > 0)
        {
            bool wasMeasured = same.Any(static one => one.Kind is RecordKind.Measured or RecordKind.Told);
            return read.Says("measured") && !wasMeasured && IsMeasurable(amount.Unit.Dimension)
                ? ("not_measured", $"the record has it only as {Known(same[0])}") : ("agrees", Known(same.MinBy(static one => one.Kind == RecordKind.Told ? 1 : 0)!));
        }

        RecordedAmount[] meant = read.Says("measured") ? [] : [.. Meant(read, topic, alike)];
        if (meant.Length > 0)
        {
            return ("differs", $"the record has {string.Join(", ", meant.DistinctBy(static one => (one.Least, one.Most)).Take(MaxShown).Select(one => Value(one, amount.Unit)))}");
        }

        if (ArticleProducts.Of(article, amount, read.Beside) is { } product)
        {
            return ("agrees", product);
        }

        bool isMeasured = read.Says("measured") && alike.Any(static one => one.Kind == RecordKind.Measured);
        RecordedAmount[] near = [.. alike.Where(one => (read.Port.Length == 0 || one.Port == read.Port) && (!isMeasured || one.Kind == RecordKind.Measured)).OrderBy(one => Math.Abs(one.Least - amount.Value)).Take(1)];
        return ("no_evidence", near.Length == 0 ? "the record has nothing of that kind" : $"the nearest of that kind: {Value(near[0], amount.Unit)}");
    }

    // What the sentence is surely about: the power that a port, or the whole, promises; what is held, weighed or measured with a ruler.
    private static IEnumerable<RecordedAmount> Meant(ReadAmount read, string topic, RecordedAmount[] alike)
    {
        if (topic.Length > 0 && topic != "size" && topic != "mass")
        {
            return alike.Where(one => one.Topic == topic);
        }

        bool isPromise = read.Amount.Unit.Dimension == ArticleDimension.Power && read.Port.Length > 0 && read.IsOfPort && read.Says("promised");
        bool isTogether = read.Says("together");
        return isPromise ? alike.Where(one => one.Port == read.Port && one.IsMaximum && one.IsTogether == isTogether && one.Kind != RecordKind.Told) : [];
    }

    private static bool IsMeasurable(ArticleDimension dimension) => dimension is ArticleDimension.Voltage or ArticleDimension.Current or ArticleDimension.Power
        or ArticleDimension.Energy or ArticleDimension.Charge or ArticleDimension.Ratio;

    private static string Known(RecordedAmount one) => one.Kind switch
    {
        RecordKind.Printed => $"printed ({one.Where})",
        RecordKind.Offered => $"offered ({one.Where})",
        RecordKind.Measured => $"measured ({one.Where})",
        _ => one.Where,
    };

    private static string Value(RecordedAmount one, ArticleUnit unit)
    {
        string least = FormattableString.Invariant($"{unit.In(one.Least):0.###}");
        string most = FormattableString.Invariant($"{unit.In(one.Most):0.###}");
        return $"{(least == most ? least : $"{least} to {most}")} {unit.Written}, {Known(one)}";
    }

    // No other power stands between the port's name and this one: "C1 gives 65 W, the lamp 5 W".
    private static bool IsNextTo(List<(string Port, int At)> named, ArticleAmount[] sentence, ArticleAmount amount, int start)
    {
        int before = named.FindLastIndex(one => one.At < amount.Start - start);
        int name = before < 0 ? 0 : named[before].At + start;
        return before >= 0 && !Array.Exists(sentence, other => other.Start > name && other.Start < amount.Start && other.Unit.Dimension == amount.Unit.Dimension);
    }

    // The port that was named last before the amount; else the only one of the sentence.
    private static string PortOf(List<(string Port, int At)> named, int at)
    {
        (string Port, int At) before = named.LastOrDefault(one => one.At < at);
        return before.Port ?? (named.Select(static one => one.Port).Distinct().Count() == 1 ? named[0].Port : "");
    }

    private static void Count(ProofCounts counts, string outcome)
    {
        counts.Amounts++;
        switch (outcome)
        {
            case "agrees":
                counts.Agrees++;
                break;
            case "differs":
                counts.Differs++;
                break;
            case "not_measured":
                counts.NotMeasured++;
                break;
            case "converted_wrongly":
                counts.ConvertedWrongly++;
                break;
            case "contradicts":
                counts.Contradicts++;
                break;
            default:
                counts.NoEvidence++;
                break;
        }
    }
}
