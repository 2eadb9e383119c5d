using System.Diagnostics;
using System.Globalization;
using System.Text.Json;

namespace Portwitness.Endurance;

/// <summary>A batch that is killed with SIGKILL again and again, and resumed: every product is reported exactly once, in files and in the store.</summary>
/// <param name="folder">An empty folder for products and reports.</param>
/// <param name="products">How many products.</param>
/// <param name="kills">How many times it is killed, at moments that the seed chooses.</param>
/// <param name="seed">Chooses the moments.</param>
internal sealed class KilledBatch(string folder, int products, int kills, int seed)
{
    private const string Journal = "batch.journal.jsonl";

    private readonly Random _random = new(seed);
    private readonly List<string> _wrong = [];

    private string Bench => Path.Combine(folder, "bench");

    private string Reports => Path.Combine(folder, "reports");

    private string Store => Path.Combine(folder, "reports.db");

    /// <summary>Does it.</summary>
    /// <param name="say">Takes what was measured.</param>
    /// <returns>What was not as it should be.</returns>
    public async Task<IReadOnlyList<string>> RunAsync(Action<string> say)
    {
        GeneratedProducts.Write(Bench, products);
        Stopwatch watch = new();
        for (int kill = 0; kill < kills; kill++)
        {
            int until = products * (kill + 1) / (kills + 1) + _random.Next(1 + products / (kills + 1) / 2);
            watch.Start();
            using PortwitnessProgram program = Start();
            while (program.IsRunning && ReportsThere() < until)
            {
                await Task.Delay(5);
                program.Look();
            }

            program.Kill();
            watch.Stop();
            await CompareAsync($"kill {kill + 1}", say);
        }

        watch.Start();
        using PortwitnessProgram last = Start();
        (int exitCode, string output, string error) = await last.EndAsync();
        watch.Stop();
        if (exitCode != 1)
        {
            _wrong.Add($"the last run ended with {exitCode}, where 1 (findings) is due: {error}");
        }

        if (!output.Contains(string.Create(CultureInfo.InvariantCulture, $"products        {products,6}"), StringComparison.Ordinal))
        {
            _wrong.Add($"the summary does not count {products} products: {output}");
        }

        int kept = await CompareAsync("the end", say);
        if (kept != products)
        {
            _wrong.Add($"the store has {kept} entries for {products} products");
        }

        string[] expected = [.. Enumerable.Range(0, products).Select(static number => GeneratedProducts.NameOf(number) + ".json")];
        string[] there = [.. Directory.EnumerateFiles(Reports).Select(static file => Path.GetFileName(file)!)
            .Where(static name => !name.StartsWith("batch.", StringComparison.Ordinal)).Order(StringComparer.Ordinal)];
        _wrong.AddRange(expected.Except(there).Select(static name => $"{name} is missing"));
        _wrong.AddRange(there.Except(expected).Select(static name => $"{name} should not be there"));
        say(string.Create(
            CultureInfo.InvariantCulture,
            $"{products} products, killed {kills} times: {watch.Elapsed.TotalSeconds:F1} s in all, {products / watch.Elapsed.TotalSeconds:F0} products/s; peak {last.PeakMemory >> 20} MiB in the last run"));
        return _wrong;
    }

    private PortwitnessProgram Start() => PortwitnessProgram.Start(
        "batch", Bench, "--output", Reports, "--format", "json", "--store", Store, "--resume");

    // A product with a line in the journal has a whole report, and its entry in the store, which was written before.
    private async Task<int> CompareAsync(string when, Action<string> say)
    {
        List<string> done = [];
        foreach (string line in File.Exists(Path.Combine(Reports, Journal)) ? File.ReadLines(Path.Combine(Reports, Journal)) : [])
        {
            try
            {
                using JsonDocument entry = JsonDocument.Parse(line);
                done.Add(entry.RootElement.GetProperty("sample").GetString()!);
                using JsonDocument report = JsonDocument.Parse(await File.ReadAllBytesAsync(
                    Path.Combine(Reports, entry.RootElement.GetProperty("report").GetString()!)));
            }
            catch (JsonException) when (when != "the end")
            {
                // The last line may be cut off; a report may not.
                _wrong.AddRange(line.EndsWith('}') ? [$"{when}: damaged report of {line}"] : []);
            }
        }

        List<string> kept = await KeptSamples.ReadAsync(Store);
        _wrong.AddRange(done.Duplicates().Select(sample => $"{when}: sample {sample} has two lines in the journal"));
        _wrong.AddRange(kept.Duplicates().Select(sample => $"{when}: sample {sample} has two entries in the store"));
        _wrong.AddRange(done.Except(kept).Select(sample => $"{when}: sample {sample} is done but not in the store"));
        say($"{when}: {done.Count} done, {kept.Count} in the store");
        return kept.Count;
    }

    // The journal belongs to the program while it runs.
    private int ReportsThere() => Directory.Exists(Reports) ? Directory.EnumerateFiles(Reports, "p*.json").Count() : 0;
}
