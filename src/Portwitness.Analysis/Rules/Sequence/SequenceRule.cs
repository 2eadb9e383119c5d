using Portwitness.Analysis.Exchanges;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>
/// A rule about which messages follow which. It declares what it hears of (<see cref="IHearsBegan"/> and the like), and suspects while the
/// capture is read; what it suspects is settled when the capture has ended (<see cref="Suspicion"/>).
/// </summary>
internal abstract class SequenceRule : Rule;
