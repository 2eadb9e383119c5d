using System.Diagnostics;
using System.Globalization;
using Portwitness.Fuzz;

// Damages good inputs of every reader for as long as wanted, and stops at the first that is not taken as it should be:
//   dotnet run -c Release --project tests/Portwitness.Fuzz -- [--reader NAME] [--minutes N] [--from NUMBER] [--case NUMBER]
// --case runs one again and writes its input to the file fuzz-case. Without --minutes it goes on until it is stopped.
Dictionary<string, string> options = [];
for (int at = 0; at + 1 < args.Length; at += 2)
{
    options[args[at]] = args[at + 1];
}

FuzzedReader[] readers = options.TryGetValue("--reader", out string? name)
    ? [.. FuzzedReader.All.Where(reader => reader.Name == name)]
    : FuzzedReader.All;
if (readers.Length == 0 || options.Keys.Except(["--reader", "--minutes", "--from", "--case"]).Any() || args.Length % 2 != 0)
{
    Console.Error.WriteLine($"Options: --reader NAME, --minutes N, --from NUMBER, --case NUMBER. Readers: {string.Join(", ", FuzzedReader.All.Select(reader => reader.Name))}.");
    return 2;
}

if (options.TryGetValue("--case", out string? one))
{
    FuzzCase again = new(readers[0], long.Parse(one, CultureInfo.InvariantCulture));
    File.WriteAllBytes("fuzz-case", again.Input());
    Console.WriteLine(again.Run() ?? "as it should be");
    return 0;
}

const int Round = 1000;
TimeSpan limit = options.TryGetValue("--minutes", out string? minutes)
    ? TimeSpan.FromMinutes(double.Parse(minutes, CultureInfo.InvariantCulture))
    : TimeSpan.MaxValue;
long first = options.TryGetValue("--from", out string? from) ? long.Parse(from, CultureInfo.InvariantCulture) : 0;
Stopwatch watch = Stopwatch.StartNew();
long number = first;
while (watch.Elapsed < limit)
{
    foreach (FuzzedReader reader in readers)
    {
        for (long at = number; at < number + Round; at++)
        {
            if (new FuzzCase(reader, at).Run() is { } wrong)
            {
                Console.WriteLine(wrong);
                return 1;
            }
        }
    }

    number += Round;
    if (number / Round % 10 == 0)
    {
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{number} of each of {readers.Length} readers, {(number - first) * readers.Length / 1e6:F2} million in {watch.Elapsed:h\\:mm\\:ss}, peak {Process.GetCurrentProcess().PeakWorkingSet64 >> 20} MiB"));
    }
}

return 0;
